import type { Severity } from '../outcome.ts';
import { say, type Said } from '../words/index.ts';
import type { BookEntry } from './rule-book.ts';
import type { Rule } from './rule.ts';

const weight: Readonly<Record<Severity, number>> = { notice: 0, minor: 1, major: 2, critical: 3 };

/**
 * In words, where an entry asks for less than the rule's regulation: switched off, of lower weight, or a figure that the
 * regulation names set looser. Empty where the rule rests on no regulation or the entry asks for as much.
 */
export function loosened(rule: Rule, { enabled, severity, parameters = {} }: BookEntry): readonly Said[] {
  if (rule.basis !== 'regulation') return [];
  const found: Said[] = [];
  if (enabled === false) found.push(say('loosened.off', { ruleId: rule.id }));
  if (severity !== undefined && weight[severity] < weight[rule.severity])
    found.push(
      say('loosened.severity', {
        ruleId: rule.id,
        severity: say(`severity.${severity}`),
        own: say(`severity.${rule.severity}`),
      }),
    );
  for (const [name, { regulation, byDefault, unit }] of rule.parameters) {
    const value = Object.hasOwn(parameters, name) ? parameters[name] : undefined;
    if (regulation === undefined || typeof value !== 'number' || rule.faultOf(name, value) !== null) continue;
    const looser = regulation === 'atLeast' ? value < byDefault : value > byDefault;
    const said = {
      ...{ ruleId: rule.id, name, value, asked: byDefault },
      unit: unit === undefined || /[{[]/.test(unit) ? '' : ` ${unit}`,
    };
    if (looser) found.push(regulation === 'atLeast' ? say('loosened.atLeast', said) : say('loosened.atMost', said));
  }
  return found;
}

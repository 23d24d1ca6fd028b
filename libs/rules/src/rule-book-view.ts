import { utcText, type Instant, type Season } from '@furrowmark/domain';
import { catalogue } from './catalogue.ts';
import { binds, packsOf } from './engine/packs.ts';
import type { AnyLimits } from './engine/limits.ts';
import { ruleBookOf } from './engine/rule-book.ts';
import type { PackId, Rule } from './engine/rule.ts';
import type { Basis, Severity } from './outcome.ts';

export interface ParameterView {
  readonly value: number;
  readonly unit?: string;
  readonly default: number;
  readonly description: string;
  /** Where a regulation itself sets the default: less must not be asked. */
  readonly regulation?: 'atLeast' | 'atMost';
}

/** One rule as the book has it. */
export interface RuleView {
  readonly ruleId: string;
  readonly revision: number;
  readonly title: string;
  readonly reason: string;
  readonly basis: Basis;
  readonly severity: Severity;
  readonly enabled: boolean;
  /** False where none of its packs is among the operation's regimes: then it is not judged at all. */
  readonly binds: boolean;
  readonly inSystemPlan: boolean;
  /** The certifier's ruling behind the limits, by its reference; null = none. */
  readonly certifierReference: string | null;
  /** `seq` of the adoption that last named the rule; null = built-in defaults. */
  readonly seq: number | null;
  readonly parameters: Readonly<Record<string, ParameterView>>;
  readonly citation: string;
  readonly packs: readonly PackId[];
  readonly chosenAt: string;
  readonly looksAt: Rule['looksAt'];
}

/** The rule book in force at an instant; `seq` and `effectiveFrom` are the last adoption's, null for the built-in book. */
export interface RuleBookView {
  readonly seq: number | null;
  readonly effectiveFrom: string | null;
  readonly rules: readonly RuleView[];
}

/** The limits of every rule as the book in force at an instant has them, by rule id. */
export function ruleBookAt(season: Season, at: Instant): ReadonlyMap<string, AnyLimits> {
  const book = ruleBookOf(season);
  return new Map(catalogue.map((rule) => [rule.id, rule.limitsIn(book, at)]));
}

/** What the book in force at an instant says, rule by rule. */
export function ruleBookView(season: Season, at: Instant): RuleBookView {
  const book = ruleBookOf(season);
  const bound = packsOf(season);
  const last = book.adoptions.findLast((adoption) => adoption.from <= at);
  return {
    seq: last?.seq ?? null,
    effectiveFrom: last === undefined ? null : utcText(last.from),
    rules: catalogue.map((rule): RuleView => {
      const limits = rule.limitsIn(book, at);
      return {
        ruleId: rule.id,
        revision: rule.revision,
        title: rule.title,
        reason: rule.reason,
        basis: limits.basis,
        severity: limits.severity,
        enabled: limits.enabled,
        binds: binds(rule, bound),
        inSystemPlan: limits.inSystemPlan,
        certifierReference: limits.ruling,
        seq: limits.seq,
        parameters: Object.fromEntries(
          [...rule.parameters].map(([name, { byDefault, unit, description, regulation }]): [string, ParameterView] => [
            name,
            {
              value: limits.parameters[name] ?? byDefault,
              ...(unit === undefined ? {} : { unit }),
              default: byDefault,
              description,
              ...(regulation === undefined ? {} : { regulation }),
            },
          ]),
        ),
        citation: rule.citation,
        packs: rule.packs,
        chosenAt: rule.chosenAt,
        looksAt: rule.looksAt,
      };
    }),
  };
}

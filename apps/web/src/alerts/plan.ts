import { clockText } from '../clock/text.ts';
import { tankWords } from '../tank/words.ts';
import { ruleTitle } from '../verdict/rules.ts';
import type { Language } from '../words/catalogue.ts';
import type { AlertFacts } from './facts.ts';
import type { Planned } from './planned.ts';
import { alertWords } from './words.ts';

const minute = 60_000;
const day = 24 * 60 * minute;

/** Tea without air or oxygen spoils within hours: these do not wait for the end of the quiet hours. */
const loud: ReadonlySet<string> = new Set(['air-continuous', 'oxygen-minimum', 'oxygen-checked']);

const pathTo = (batchId: string, form: string): string => `/tank/${batchId}/record/${form}`;

/**
 * What is to be told and when: before a time until which something must be done, at a time from which it may be. A time
 * from which something may be done is no deadline any more once it has come: `before`, the plan until now, keeps it
 * until it was told, as long as it is what is expected there.
 */
export function planOf(
  facts: AlertFacts,
  leadMinutes: number,
  language: Language,
  now: number,
  before: readonly Planned[] = [],
): readonly Planned[] {
  const tank = tankWords[language];
  const w = alertWords[language];
  const title = ({ vesselCode, code }: { readonly vesselCode: string; readonly code: string }): string =>
    [vesselCode, code].filter((part) => part !== '').join(' · ');
  const due = facts.due.map((each): Planned => {
    const { findingId, ruleId, at, side, form, batchId } = each;
    const clock = clockText(at, facts.zone);
    return {
      ...{ key: `${findingId} ${String(at)}`, loud: loud.has(ruleId), title: title(each) },
      ...{ at: side === 'by' ? at - leadMinutes * minute : at, until: at + day },
      body: `${tank[`do_${form}`]} ${side === 'by' ? tank.by(clock) : tank.from(clock)}`,
      path: pathTo(batchId, form),
    };
  });
  const broken = facts.broken.map((each): Planned => ({
    ...{ key: `${each.findingId} broken`, loud: loud.has(each.ruleId), title: title(each) },
    // From when it is first seen; it stays worth telling while it stands.
    ...{ at: now, until: now + day, path: `/batch/${each.batchId}` },
    body: w.outside(ruleTitle(each.ruleId, each.title, language)),
  }));
  const planned = new Set([...due, ...broken].map(({ key }) => key));
  const asked = new Set(facts.expected.flatMap(({ batchId, forms }) => forms.map((form) => pathTo(batchId, form))));
  const come = before.filter(({ key, at, path }) => at <= now && !planned.has(key) && asked.has(path));
  return [...due, ...broken, ...come];
}

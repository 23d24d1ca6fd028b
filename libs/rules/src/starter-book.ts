import type { Instant, Season } from '@furrowmark/domain';
import { catalogue } from './catalogue.ts';
import { binds, packsOf } from './engine/packs.ts';
import { ruleBookOf } from './engine/rule-book.ts';

/** What a new operation may begin with: five rules that need no register beyond tank, water and lots. */
export const starterRuleIds: readonly string[] = [
  'chlorine-dissipated',
  'brew-minimum',
  'hold-maximum',
  'oxygen-checked',
  'input-approved',
];

/** Entries of an adoption that leave only the starter rules on. */
export const starterEntries = (): readonly { readonly ruleId: string; readonly enabled: boolean }[] =>
  catalogue.map((rule) => ({ ruleId: rule.id, enabled: starterRuleIds.includes(rule.id) }));

/** A rule that is not judged, and why. */
export interface NotSwitchedOn {
  readonly ruleId: string;
  readonly title: string;
  readonly why: 'switched off' | 'regime not chosen';
}

/** What the book in force leaves out: shown so that silence is not taken for a clean record. */
export function notSwitchedOn(season: Season, at: Instant): readonly NotSwitchedOn[] {
  const book = ruleBookOf(season);
  const bound = packsOf(season);
  return catalogue.flatMap((rule): NotSwitchedOn[] => {
    const { id: ruleId, title } = rule;
    if (!binds(rule, bound)) return [{ ruleId, title, why: 'regime not chosen' }];
    return rule.limitsIn(book, at).enabled ? [] : [{ ruleId, title, why: 'switched off' }];
  });
}

import type { SubjectKind, Verdict } from '../../outcome.ts';
import { id, lb, type Beside, type SeasonBuilder } from '../season.ts';

/** `nothing`: the rule does not speak of the subject at all. */
export type Said = Verdict | 'nothing';

/** Which side of a rule's limit: just within, or just past it. */
export type Side = 'within' | 'past';

/**
 * One worked case of a rule, in both sides of its limit: two seasons that differ only in what decides. From it the kinds
 * of test that every rule needs are made (`every-rule.test.ts`). Verdicts and figures are worked out by hand from the
 * rule's text; nothing here comes from the program.
 */
export interface WorkedCase {
  readonly ruleId: string;
  /** What decides, in words: "drawn 48 h after the molasses, or a minute later". */
  readonly words: string;
  /** The subject, by the name that the season gave it; `kind` where the rule speaks of several kinds. */
  readonly about: string;
  readonly kind?: SubjectKind;
  readonly now?: string;
  /** Writes the season; `beside` goes with the record that decides (how sure its time is). */
  readonly write: (side: Side, beside: Beside) => SeasonBuilder;
  readonly verdicts: Readonly<Record<Side, Said>>;
  /** What nobody wrote down, and what is said then. */
  readonly unknown: { readonly words: string; readonly write: () => SeasonBuilder; readonly verdict: Said };
  /** How unsure the time within the limit must be to leave it open; in words where no time is compared. */
  readonly unsure: { readonly minutes: number; readonly verdict: Said } | string;
  /** When the rule book is chosen for the side past the limit (the rule's `chosenAt`). */
  readonly chosenAt: string;
  /** What is said where the rule is off from then on, if not that it does not apply: something else was judged before. */
  readonly whileOff?: Verdict;
  /** Own figures under which the side within is past the limit, too, and what is said; in words where none serves. */
  readonly stricter?: { readonly parameters: Readonly<Record<string, number>>; readonly verdict: Verdict } | string;
  /** Why what decides cannot be amended. */
  readonly neverAmended?: string;
}

/** The usual beginning of a batch: filled and air on at 05:00 on 2 June, compost at 06:00. */
export const brewed = (season: SeasonBuilder) =>
  season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');

/** A load of T-14, drawn at a time that may be unsure. */
export function loaded(season: SeasonBuilder, when: string, beside: Beside = {}): SeasonBuilder {
  const volume = { value: 100, unit: '[gal_us]' };
  season.add('batch.drawn', when, { drawId: id('load'), batchId: id('T-14'), volume }, beside);
  return season;
}

/** A household measure that nobody weighed. */
export const bucket = { value: 1, unit: '{measure}', measureId: id('bucket') };

/** Manure, its lot, and the farm's own compost of it as a material. */
export function manure(season: SeasonBuilder): SeasonBuilder {
  season.material('manure', { kind: 'other', animalOrigin: 'yes' }).lot('Man-1', 'manure', lb(1000));
  return season.material('own compost', { animalOrigin: 'yes' });
}

import type { Moment } from '../facts/time.ts';
import type { Batch, Fill, Ingredient } from '../facts/types.ts';
import { compareIds } from '../order.ts';
import { isFood, startsBrew } from './additions.ts';
import { hour } from './moments.ts';

type TopUp = Batch['topUps'][number];

/** The first ingredient: the brew starts. */
export function brewStartOf(additions: readonly Ingredient[]): Moment | null {
  return additions.find(startsBrew)?.at ?? null;
}

/** The first thing that feeds life in the tank; an ingredient of unknown material is taken as such. */
export function foodFrom(additions: readonly Ingredient[]): Moment | null {
  return additions.find((each) => isFood(each) || (startsBrew(each) && each.materialKind === null))?.at ?? null;
}

/** Water of this share of the content it is poured onto renews the brew: common practice, no source. */
const freshWaterShare = 0.1;
const settling = 2 * hour;

/**
 * Additions that renew a brew more than 2 h after its start: compost, vermicompost, microbial food, or water of 10 % or
 * more of what was in the tank before it.
 */
export function topUpsOf(
  brewStart: Moment | null,
  additions: readonly Ingredient[],
  fills: readonly (Fill & { readonly shareOfBefore: number })[],
): TopUp[] {
  if (brewStart === null) return [];
  const late = (at: Moment) => at.at - brewStart.at > settling;
  const food = additions
    .filter((each) => isFood(each) && late(each.at))
    .map(({ recordId, at }): TopUp => ({ recordId, at, what: 'ingredient' }));
  const water = fills
    .filter((each) => each.shareOfBefore >= freshWaterShare && late(each.finished))
    .map(({ recordId, finished }): TopUp => ({ recordId, at: finished, what: 'water' }));
  return [...food, ...water].sort((a, b) => a.at.at - b.at.at || compareIds(a.recordId, b.recordId));
}

/** Brew start, or the last top-up before the moment where that is later. */
export function brewFromAt(brewStart: Moment | null, topUps: readonly TopUp[], draw: Moment): Moment | null {
  if (brewStart === null || brewStart.at > draw.at) return null;
  return topUps.findLast((each) => each.at.at <= draw.at)?.at ?? brewStart;
}

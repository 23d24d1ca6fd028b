import type { Instant } from '../facts/time.ts';
import { Decimal, decimal, decimalIn, zero } from '../quantity/index.ts';
import type { PlanFacts, PlanVessel } from './planFacts.ts';

const minute = 60_000;
const hour = 60 * minute;
const mostBatches = 200;

/** One batch on the clock. Air goes off when its application begins; it may stay on longer, which only shortens the hold. */
export interface Slot {
  readonly vessel: PlanVessel;
  readonly litres: Decimal;
  readonly fillFrom: Instant;
  /** Filled and air on. */
  readonly airOnAt: Instant;
  readonly ingredientsAt: Instant;
  readonly airOffAt: Instant;
  readonly applyBy: Instant;
}

export interface Schedule {
  readonly slots: readonly Slot[];
  /** Litres that found no place. */
  readonly rest: Decimal;
}

/** Litres of tea that each target takes; null where an area or rate does not convert. */
export function litresNeeded(facts: Pick<PlanFacts, 'targets'>): readonly Decimal[] | null {
  const each = facts.targets.map(({ area, rate }) => {
    // Per the area's own unit, so that acres cancel against acres. To the millionth of a millilitre: what a division
    // left in the fiftieth digit must not ask for a further load.
    const perUnit = decimalIn(rate, `L/(${area.unit})`);
    return perUnit?.times(area.value).toDecimalPlaces(9) ?? null;
  });
  return each.every((l) => l !== null) ? each : null;
}

/** Minutes of air before the first ingredient: chlorine needs them, other water none. Unknown counts as chlorinated. */
export const preAerationMinutes = (facts: Pick<PlanFacts, 'disinfectant' | 'limits'>): number =>
  facts.disinfectant === 'none' ? 0 : facts.limits.preAerationMinutes;

export const brewHours = (facts: Pick<PlanFacts, 'recipe' | 'limits'>): number =>
  facts.recipe?.brewHours ?? facts.limits.brewHours;

/**
 * Puts batches into vessels, backwards from when each can be sprayed: a batch is ready just when the sprayer gets to it
 * and is used up within the hold time and the window. Vessels take turns; the next fill waits for emptying and cleaning.
 * Of vessels ready at the same time the smallest that takes all the rest goes first, else the largest.
 */
export function schedule(facts: PlanFacts, need: Decimal, holdHours: number, until: Instant): Schedule {
  const lead = (facts.fillMinutes + preAerationMinutes(facts)) * minute + Math.round(brewHours(facts) * hour);
  const perHour = facts.sprayer.perHour === null ? null : decimalIn(facts.sprayer.perHour, 'L/h');
  const free = new Map(
    facts.vessels.map((v) => [v.vesselId, Math.max(v.freeFrom ?? -Infinity, facts.now ?? -Infinity)]),
  );
  const slots: Slot[] = [];
  let sprayerFree = facts.spray.from;
  let rest = need;
  while (rest.gt(0) && slots.length < mostBatches) {
    const next = choose(
      facts.vessels.flatMap((v) => candidate(v)),
      rest,
    );
    if (next === null) break;
    const litres = Decimal.min(next.cap, rest);
    const lasts = perHour === null ? next.time : Math.min(next.time, minutesUp(litres.div(perHour).times(hour)));
    slots.push(slotOf(facts, next.vessel, litres, next.applyFrom, next.applyFrom + lasts));
    // Without a known output the batches are taken to be sprayed side by side.
    if (perHour !== null) sprayerFree = next.applyFrom + lasts;
    free.set(next.vessel.vesselId, next.applyFrom + lasts + facts.cleaningMinutes * minute);
    rest = rest.minus(litres);
  }
  return { slots, rest };

  function candidate(vessel: PlanVessel): Candidate[] {
    const working = vessel.workingVolume === null ? null : decimalIn(vessel.workingVolume, 'L');
    if (working === null || !working.gt(0)) return [];
    const ready = (free.get(vessel.vesselId) ?? -Infinity) + lead;
    const applyFrom = Math.max(facts.spray.from, sprayerFree, ready);
    const time = Math.min(until, applyFrom + holdHours * hour) - applyFrom;
    if (time < minute) return [];
    const cap = perHour === null ? working : Decimal.min(working, perHour.times(time).div(hour));
    return cap.gt(0) ? [{ vessel, working, applyFrom, time, cap }] : [];
  }
}

interface Candidate {
  readonly vessel: PlanVessel;
  readonly working: Decimal;
  readonly applyFrom: Instant;
  /** Milliseconds in which it must be used up. */
  readonly time: number;
  /** Litres that can be used up in that time. */
  readonly cap: Decimal;
}

function choose(candidates: readonly Candidate[], rest: Decimal): Candidate | null {
  const earliest = Math.min(...candidates.map((c) => c.applyFrom));
  const ready = candidates.filter((c) => c.applyFrom === earliest);
  const sufficient = ready.filter((c) => c.cap.gte(rest)).sort((a, b) => a.working.comparedTo(b.working));
  return sufficient[0] ?? ready.sort((a, b) => b.cap.comparedTo(a.cap))[0] ?? null;
}

function slotOf(facts: PlanFacts, vessel: PlanVessel, litres: Decimal, applyFrom: Instant, applyBy: Instant): Slot {
  const ingredientsAt = applyFrom - Math.round(brewHours(facts) * hour);
  const airOnAt = ingredientsAt - preAerationMinutes(facts) * minute;
  return {
    vessel,
    litres,
    fillFrom: airOnAt - facts.fillMinutes * minute,
    airOnAt,
    ingredientsAt,
    airOffAt: applyFrom,
    applyBy,
  };
}

const minutesUp = (milliseconds: Decimal): number => milliseconds.div(minute).ceil().times(minute).toNumber();

/** Shares out a batch's litres over the targets in their order; `open` holds what each still takes and is used up. */
export function shareOut(litres: Decimal, open: Decimal[]): readonly Decimal[] {
  let rest = litres;
  return open.map((takes, i) => {
    const share = Decimal.min(takes, rest);
    open[i] = takes.minus(share);
    rest = rest.minus(share);
    return share.gt(0) ? share : zero;
  });
}

/** The whole need as one figure. */
export const total = (litres: readonly Decimal[]): Decimal => litres.reduce((a, b) => a.plus(b), decimal(0));

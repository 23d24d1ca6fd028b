import type { Moment, Span } from '../facts/time.ts';
import type { Batch, Draw, Ingredient } from '../facts/types.ts';
import { comparePlaces } from '../order.ts';
import type { Decimal } from '../quantity/decimal.ts';
import { rankOf } from '../records/catalogue.ts';
import type { LotId } from '../records/ids.ts';
import { isFood } from './additions.ts';
import { type AirChange, airOffBefore, isChecked, lastAirAt } from './air.ts';
import type { Load } from './applications.ts';
import { brewFromAt } from './brew.ts';
import { exact, nothing } from './exact.ts';
import { earlier, hoursBetween, later, minutesBetween, within } from './moments.ts';
import type { Stock } from './stock.ts';
import type { Parcels, TankHistory } from './tank.ts';

/** What a draw is judged by, from the whole batch. */
export interface BrewContext {
  readonly air: readonly AirChange[];
  readonly brewStart: Moment | null;
  readonly topUps: Batch['topUps'];
  readonly interruptions: Batch['interruptions'];
  /** Oxygen readings and sound checks. */
  readonly checks: readonly Moment[];
  readonly oxygen: readonly Moment[];
  readonly tank: TankHistory;
  readonly addition: (recordId: string) => Ingredient | undefined;
  readonly stock: Stock;
}

/** Loads in the order in which they left the tank. */
export function inOrderDrawn(loads: readonly Load[]): Load[] {
  const place = (load: Load) => ({ instant: load.at.at, rank: rankOf('batch.drawn'), id: load.id });
  return [...loads].sort((a, b) => comparePlaces(place(a), place(b)));
}

/** The limit of `air-continuous` as built in; the rule counts anew where the operation adopted another. */
export const uncheckedLimitMinutes = 60;

export function drawFacts(load: Load, context: BrewContext): Draw {
  const { air, tank, stock } = context;
  const applications = load.applications;
  const started = applications.map((each) => within(each, each.data.startedAt)).reduce(laterOrFirst, null);
  const appliedUntil = applications.map((each) => within(each, each.data.finishedAt)).reduce(laterOrFirst, null);
  const airOff = airOffBefore(air, load.at)?.at ?? null;
  const tankAir = lastAirAt(air, load.at);
  const carried = load.keptAerated && started !== null;
  // Kept aerated on the way, the tea had air until spraying began.
  const lastAir = carried ? (tankAir === null ? started : later(tankAir, started)) : tankAir;
  const sinceAir = lastAir && appliedUntil && hoursBetween(lastAir, appliedUntil);
  const unchecked = uncheckedBefore(load, context, carried ? airOff : null, started);
  const uncheckedHours = hoursOver(unchecked, uncheckedLimitMinutes);
  const brewFrom = brewFromAt(context.brewStart, context.topUps, load.at);
  const lastReading = context.oxygen.findLast((reading) => reading.at <= load.at.at);
  const tea = tank.draws.get(load.id);
  const held = tea?.parcels ?? new Map<string, Decimal>();
  return {
    id: load.id,
    drawId: load.drawId,
    applicationId: applications.at(0)?.data.applicationId ?? null,
    applicationIds: applications.map((each) => each.data.applicationId),
    at: load.at,
    litres: load.litres,
    quantity: load.quantity,
    into: load.into,
    keptAerated: load.keptAerated,
    ended: load.ended.map(({ id, data, at }) => ({
      recordId: id,
      fate: data.fate,
      litres: stock.litres(data.volume, at),
      intoBatchId: data.intoBatchId,
      at,
    })),
    airOff,
    lastAir,
    appliedUntil,
    brewFrom,
    brewHours: brewFrom && hoursBetween(brewFrom, brewEnd(air, load.at, airOff)),
    airToApplicationHours: sinceAir,
    holdHours: sinceAir && plus(sinceAir, uncheckedHours),
    uncheckedInterruptions: unchecked,
    uncheckedInterruptionHours: uncheckedHours.value,
    lastOxygenMinutes: lastReading === undefined ? null : minutesBetween(lastReading, load.at),
    shareOfTank: tea?.share?.toNumber() ?? null,
    lots: lotsIn(held, context.addition),
    parcels: parcelsIn(held, context.addition),
    microbialFoodIn: [...held.keys()].some((id) => context.addition(id)?.microbialFood === true),
    foodIn: [...held.keys()].map(context.addition).some((each) => each !== undefined && isFood(each)),
    recordIds: [load.recordId, ...load.ended.map((each) => each.id), ...applications.map((each) => each.id)].filter(
      (id, i, all) => all.indexOf(id) === i,
    ),
  };
}

function laterOrFirst(a: Moment | null, b: Moment): Moment {
  return a === null ? b : later(a, b);
}

/** The earlier of the draw and *the* air off, bounded by what the uncertain air times allow. */
function brewEnd(air: readonly AirChange[], draw: Moment, airOff: Moment | null): Moment {
  const end = airOff === null ? draw : earlier(airOff, draw);
  const bounds = lastAirAt(air, draw);
  return bounds === null
    ? end
    : { at: end.at, from: Math.min(end.from, bounds.from), to: Math.max(end.at, Math.min(bounds.to, draw.to)) };
}

type Unchecked = Draw['uncheckedInterruptions'][number];

/**
 * Interruptions before the draw, once food was in, after which nobody measured oxygen or found the smell sound before
 * the draw. Tea taken after *the* air off and then aerated on the way had one more: from the air off to the draw.
 */
function uncheckedBefore(
  load: Load,
  { interruptions, checks }: BrewContext,
  airOff: Moment | null,
  started: Moment | null,
): Unchecked[] {
  const found: Unchecked[] = [];
  for (const { restarted, minutes, duringBrew, recordIds } of interruptions) {
    if (restarted === null || minutes === null || !duringBrew || restarted.at > load.at.at) continue;
    if (!isChecked(checks, restarted, load.at)) found.push({ minutes, recordIds });
  }
  if (airOff !== null && !isChecked(checks, load.at, started)) {
    found.push({ minutes: minutesBetween(airOff, load.at), recordIds: [load.recordId] });
  }
  return found;
}

/** The hours of those interruptions that are longer than the limit. Uncertain lengths may or may not be. */
export function hoursOver(interruptions: readonly Unchecked[], limitMinutes: number): Span {
  const over = (pick: (span: Span) => number) =>
    interruptions
      .map((each) => pick(each.minutes))
      .filter((minutes) => minutes > limitMinutes)
      .reduce((a, b) => a + b, 0) / 60;
  return { value: over((s) => s.value), least: over((s) => s.least), most: over((s) => s.most) };
}

function plus(a: Span, b: Span): Span {
  return { value: a.value + b.value, least: a.least + b.least, most: a.most + b.most };
}

/** Each lot's amount in a body of tea, exact, in the lot's unit; additions of unknown worth are not in it. */
export function lotsIn(
  parcels: Parcels,
  addition: (recordId: string) => Ingredient | undefined,
): { readonly lotId: LotId; readonly amount: Decimal }[] {
  const amounts = new Map<LotId, Decimal>();
  for (const [id, share] of parcels) {
    const found = addition(id);
    if (found === undefined || found.amount === null) continue;
    amounts.set(
      found.lotId,
      exact(share)
        .times(found.amount)
        .plus(amounts.get(found.lotId) ?? nothing),
    );
  }
  return [...amounts].map(([lotId, amount]) => ({ lotId, amount }));
}

function parcelsIn(parcels: Parcels, addition: (recordId: string) => Ingredient | undefined): Draw['parcels'] {
  return [...parcels].map(([recordId, share]) => ({ recordId, lotId: addition(recordId)?.lotId ?? null, share }));
}

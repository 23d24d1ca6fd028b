import type { Quantity } from '@furrowmark/domain';
import { betweenPads, degF, gal, mgPerL } from './amounts.ts';
import { dayAfter, later, type Day, type Stamp } from './calendar.ts';
import type { Farm } from './farm.ts';
import { load, type Load, type LoadWritten } from './load.ts';
import type { Recipe } from './recipes.ts';
import type { Vessel, Water } from './yard.ts';

/** An oxygen reading: when, mg/L, °F. */
export type Reading = readonly [at: Stamp, mgPerL: number, degF: number];

/** A brew as the farm usually runs it; only what went otherwise is said. */
export interface Brew {
  readonly code: string;
  readonly in: Vessel;
  readonly of: Recipe;
  readonly day: Day;
  readonly gallons: number;
  readonly water: Water;
  /** Amounts that differ from the recipe's, by lot: another lot, another amount. */
  readonly insteadOf?: Readonly<Record<string, { readonly lotId: string; readonly quantity?: Quantity }>>;
  readonly loads: readonly Load[];
  /** Fill begins at 05:30 and takes a quarter of an hour. */
  readonly fillAt?: Stamp;
  /** Air starts as the fill ends. */
  readonly airOnAt?: Stamp;
  /** Half an hour of air before the first ingredient. */
  readonly feedAt?: Stamp;
  /** Free chlorine by strip, where the water is chlorinated; null: nobody looked. */
  readonly strip?: Quantity | null;
  /** Six and thirteen hours in, and before the first draw. */
  readonly oxygen?: readonly Reading[];
  /** After the last draw. */
  readonly airOffAt?: Stamp;
  /** When the air off was typed, where that was not at once. */
  readonly airOffEntered?: Stamp;
  /** What was left in the tank at closing; the rest of the fill unless said. */
  readonly left?: number;
  /** When the office read and signed it: six days after closing unless said; null: not yet. */
  readonly reviewedOn?: Day | null;
}
export interface Brewed {
  readonly batchId: string;
  readonly feedAt: Stamp;
  readonly airOffRecordId: string;
  readonly loads: readonly LoadWritten[];
}

/** Usual readings of the month: water temperature, then oxygen at six hours, thirteen hours and before the draw. */
const usual: Readonly<Record<string, readonly [number, number, number, number]>> = {
  '04': [58, 8.4, 7.8, 7.6],
  '05': [63, 8.0, 7.4, 7.2],
  '06': [68, 7.8, 7.1, 7.0],
  '07': [73, 7.4, 6.8, 6.9],
  '08': [72, 7.5, 6.9, 7.0],
};

/** Writes one brew from opening to signature. */
export function brew(farm: Farm, it: Brew): Brewed {
  const { diary, people, yard } = farm;
  const inesDid = { performedBy: people.ines };
  const batchId = diary.newId();
  const fillAt = it.fillAt ?? `${it.day} 05:30`;
  const filledAt = later(fillAt, 15);
  const airOnAt = it.airOnAt ?? later(filledAt, 1);
  const feedAt = it.feedAt ?? later(airOnAt, 30);
  const firstDraw = it.loads.map((one) => one.drawnAt ?? later(one.from, -10)).toSorted()[0] ?? later(feedAt, 25 * 60);
  const { vesselId, blowerId } = it.in;

  diary.write('batch.opened', later(fillAt, -5), {
    ...{ batchId, code: it.code, kind: 'aeratedTea', vesselId, recipeId: it.of.recipeId },
    plannedVolume: gal(it.gallons),
  });
  const finishedAt = diary.instant(filledAt);
  diary.write(
    'batch.filled',
    filledAt,
    { batchId, sourceId: it.water.sourceId, volume: gal(it.gallons), finishedAt },
    inesDid,
  );
  diary.write('batch.airStarted', airOnAt, { batchId, blowerId }, inesDid);
  if (it.water.disinfectant === 'chlorine' && it.strip !== null) {
    const free = it.strip ?? betweenPads(0, 0.5);
    const strip = { batchId, free, method: 'strip', instrumentId: yard.strips };
    diary.write('batch.chlorineMeasured', later(feedAt, -5), strip, inesDid);
  }
  for (const [index, part] of it.of.parts.entries()) {
    const instead = it.insteadOf?.[part.lotId];
    const amount = Number(((part.amount.value * it.gallons) / it.of.basisGallons).toPrecision(3));
    const quantity = instead?.quantity ?? { ...part.amount, value: amount };
    const lotId = instead?.lotId ?? part.lotId;
    diary.write('batch.ingredientAdded', later(feedAt, 2 * index), { batchId, lotId, quantity }, inesDid);
  }
  const looks = { airRunning: 'yes', surface: 'rolling', odour: 'earthy', foam: 'some' } as const;
  diary.write('batch.checked', later(feedAt, 90), { batchId, ...looks }, inesDid);

  const [temperature, first, second, last] = usual[it.day.slice(0, 2)] ?? [65, 7.8, 7.2, 7.1];
  const readings: readonly Reading[] = it.oxygen ?? [
    [later(feedAt, 6 * 60), first, temperature],
    [later(feedAt, 13 * 60), second, temperature + 1],
    [later(firstDraw, -35), last, temperature],
  ];
  for (const reading of readings) oxygen(farm, batchId, reading);

  const loads = it.loads.map((one, index) => {
    const suffix = it.loads.length > 1 ? `-${index + 1}` : '';
    return load(farm, batchId, `A-${it.code}${suffix}`, one);
  });
  const lastDraw =
    it.loads
      .map((one) => one.drawnAt ?? later(one.from, -10))
      .toSorted()
      .at(-1) ?? firstDraw;
  const airOffAt = it.airOffAt ?? later(lastDraw, 5);
  const off = { batchId, blowerId, cause: 'planned' as const };
  const typed = it.airOffEntered === undefined ? {} : { entered: it.airOffEntered };
  const airOffRecordId = diary.write('batch.airStopped', airOffAt, off, { ...inesDid, ...typed });
  const closedAt = later(
    it.loads
      .map((one) => one.to)
      .toSorted()
      .at(-1) ?? airOffAt,
    20,
  );
  const left = it.left ?? it.gallons - it.loads.reduce((sum, one) => sum + one.gallons, 0);
  diary.write('batch.closed', closedAt, { batchId, remainingVolume: gal(left) }, inesDid);
  cleanUp(farm, it.in, it.loads, closedAt);
  if (it.reviewedOn !== null) sign(farm, batchId, `${it.reviewedOn ?? dayAfter(closedAt.slice(0, 5), 6)} 16:30`);
  return { batchId, feedAt, airOffRecordId, loads };
}

/** One oxygen reading with the farm's meter. */
export function oxygen({ diary, people, yard }: Farm, batchId: string, [at, value, temperature]: Reading): string {
  return diary.write(
    'batch.oxygenMeasured',
    at,
    { batchId, dissolvedOxygen: mgPerL(value), temperature: degF(temperature), instrumentId: yard.meter },
    { performedBy: people.ines },
  );
}

/** Tank, diffusers and rig are washed the same day. */
function cleanUp(
  { diary, yard, people, stores }: Farm,
  { vesselId }: Vessel,
  loads: readonly Load[],
  after: Stamp,
): void {
  const { peroxide1: lotId } = stores.lots;
  const washed = { method: 'hot water, brush, then peroxide', lotId, contactMinutes: 10, rinsed: true };
  const parts = ['tank', 'lid', 'diffusers', 'airLine'];
  diary.write('vessel.cleaned', later(after, 40), { vesselId, ...washed, parts }, { performedBy: people.ines });
  const rigs = new Set(loads.map((one) => (one.method === 'foliar' ? yard.sprayer : yard.drenchRig)));
  for (const equipmentId of rigs) {
    const rinse = { equipmentId, method: 'triple rinse', parts: ['tank', 'hoses', 'nozzles'], rinsed: true };
    diary.write('equipment.cleaned', later(after, 15), rinse, { performedBy: people.tobin });
  }
}

/** The office reads the batch record and signs it over the log as it stands. */
export function sign({ diary, people }: Farm, batchId: string, at: Stamp): string {
  const statement = 'I have read these records and they are complete.';
  return diary.writeWhenKnown(
    'batch.reviewed',
    at,
    ({ lastSeq }) => ({ batchId, throughSeq: lastSeq, meaning: 'reviewed', statement }),
    { by: 'reviewer', performedBy: people.sefa },
  );
}

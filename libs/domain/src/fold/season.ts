import { asOf } from '../facts/asOf.ts';
import type { Instant, Moment } from '../facts/time.ts';
import type { Planting, Season } from '../facts/types.ts';
import { numberIn } from '../quantity/convert.ts';
import type { Decimal } from '../quantity/decimal.ts';
import type { Quantity } from '../quantity/quantity.ts';
import type { BatchId } from '../records/ids.ts';
import type { LogRecord } from '../records/record.ts';
import { additions as foldAdditions } from './additions.ts';
import { loads as foldLoads } from './applications.ts';
import { batches as foldBatches } from './batch.ts';
import { ground as foldGround } from './ground.ts';
import { lots as foldLots } from './lots.ts';
import { describing } from './missing.ts';
import type { View } from './memo.ts';
import { piles as foldPiles } from './piles.ts';
import { each, registers as foldRegisters } from './registers.ts';
import { stock as foldStock } from './stock.ts';
import { Store } from './store.ts';
import { tanks as foldTanks } from './tanks.ts';
import type { TankHistory } from './tank.ts';
import { applicationViews } from './targets.ts';

/** A season that takes further records. */
export interface OpenSeason extends Season {
  /** What went through the batch's tank, parcel by parcel. */
  tank(batchId: string): TankHistory;
  /** The tanks of the batch and those it exchanged tea with, the tea of this batch told apart (`recordOfParcel`). */
  tanksFollowing(batchId: string): ReadonlyMap<string, TankHistory>;
  /** A written amount of a lot in the lot's unit, exact; null where it cannot be told. */
  amountOf(lotId: string, quantity: Quantity, at: Moment): Decimal | null;
  /** The batch that a draw's subject id belongs to; null while unknown. */
  batchOfDraw(drawId: string): BatchId | null;
  /** Takes records, known ones without effect, and names the batches whose facts may have changed by them. */
  add(records: Iterable<LogRecord>): { readonly batches: ReadonlySet<BatchId> };
  /** Takes records as `add` does, but does not tell what they change: nothing is folded for it, so it takes no time. */
  take(records: Iterable<LogRecord>): void;
  /**
   * Takes records out again: what a device entered and the log now gives in its own words, or never will. Unknown ids
   * have no effect. `size` stays as it is.
   */
  withdraw(ids: Iterable<string>): void;
  /**
   * What `work` gives while these records stand in the season as well; afterwards it is as it was before. Only what they
   * change is folded anew. `work` must not keep facts for later, nor wait for anything.
   */
  supposing<T>(records: Iterable<LogRecord>, work: () => T): T;
}

/**
 * Opens a season over records in any order, resent ones included. Views are folded when first asked for and kept; what
 * is added makes exactly those views be folded anew that read something it changed.
 */
export function openSeason(records: Iterable<LogRecord> = [], { until }: { until?: Instant } = {}): OpenSeason {
  const store = new Store(until);
  store.add(records);
  return seasonOver(store);
}

/**
 * The same, so many records at a time: gives how many were taken so far after each step, and the season at the end. For
 * whoever has to do something else in between, as a page does that is being touched.
 */
export function* openingSeason(records: Iterable<LogRecord>, each: number): Generator<number, OpenSeason> {
  const store = new Store();
  let taken = 0;
  let step: LogRecord[] = [];
  for (const record of records) {
    step.push(record);
    if (step.length < each) continue;
    store.add(step);
    taken += step.length;
    step = [];
    yield taken;
  }
  store.add(step);
  return seasonOver(store);
}

function seasonOver(store: Store): OpenSeason {
  const { memo } = store;

  const registers = foldRegisters(store);
  const operation = () => registers.operation();
  const timeZone = () => {
    const known = operation();
    return known === null ? 'UTC' : asOf(known, Infinity).timeZone;
  };
  const stock = foldStock(store, registers);
  const loads = foldLoads(store, stock);
  const additions = foldAdditions(store, registers, stock);
  const tanks = foldTanks(store, stock, loads);
  const missingIn = describing(store, stock, loads);
  const batch = foldBatches({ store, registers, stock, loads, additions, tanks, missingIn });
  const lot = foldLots(store, stock, loads);
  const pile = foldPiles(store);
  const { planting, harvest, sameGround } = foldGround(store, registers, timeZone);

  const plantings = () => each(store.ofType('planting.started'), (data) => data.plantingId, planting);
  const plantingsOn = memo.view('plantingsOn', (fieldId): readonly Planting[] =>
    plantings().filter((planted) => sameGround(fieldId).has(planted.started.data.fieldId)),
  );
  const plantingsStanding = (fieldId: string, at: Instant) =>
    plantingsOn(fieldId).filter(
      (planted) => planted.standsFrom <= at && (planted.standsUntil === null || planted.standsUntil >= at),
    );
  const application = applicationViews(store, stock, loads, plantingsStanding);
  const applicationsOf = memo.view('applicationsOf', (batchId) => {
    const ids = loads.loadsOf(batchId).flatMap((load) => load.applications.map((made) => made.data.applicationId));
    return [...new Set(ids)].map(application).filter((found) => found !== undefined);
  });
  const drawOf = (id: string) => {
    const batchId = loads.batchOfDraw(id);
    const found = batchId === null ? undefined : batch(batchId);
    const draw = found?.draws.find((taken) => taken.id === id);
    return found && draw && { batch: found, draw };
  };
  const allBatches = () =>
    store
      .batchIds()
      .map(batch)
      .filter((found) => found !== undefined);
  /** Ids of the batches folded so far, and which of them have to be folded anew before more can be taken. */
  const known = new Map<string, BatchId>();
  const unfolded = new Set<string>();
  const remember = (id: string): BatchId | undefined => {
    const found = batch(id);
    if (found !== undefined) known.set(id, found.id);
    return found?.id;
  };
  for (const id of store.takeNewBatchIds()) unfolded.add(id);
  /** The batches among the views that were forgotten; they are folded before the next records are taken. */
  const batchesGone = (gone: ReadonlySet<View>): BatchId[] => {
    const found: BatchId[] = [];
    for (const { name, id } of gone) {
      const batchId = name === 'batch' ? known.get(id) : undefined;
      if (batchId === undefined) continue;
      found.push(batchId);
      unfolded.add(id);
    }
    return found;
  };
  const batchesIn = memo.view('batchesIn', (vesselId) => allBatches().filter((found) => found.vesselId === vesselId));

  return {
    ...registers,
    get operation() {
      return operation();
    },
    get timeZone() {
      return timeZone();
    },
    get elevationM() {
      const known = operation();
      const elevation = known === null ? undefined : asOf(known, Infinity).elevation;
      return elevation === undefined ? null : numberIn(elevation, 'm');
    },
    get size() {
      return store.size;
    },
    get version() {
      return store.version;
    },
    records: () => store.all(),
    written: () => store.written(),
    record: (id) => store.record(id),
    naming: (type, id) => store.naming(type, id),
    about: (id) => store.allAbout(id).filter((record) => record.state !== 'struck'),
    everAbout: (id) => store.allAbout(id),
    onceAbout: (id) => store.onceAbout(id),
    adoptions: () => store.ofType('ruleBook.adopted'),
    answers: () => store.ofType('finding.answered'),
    ofType: (type) => store.ofType(type),
    planting,
    plantings,
    plantingsStanding,
    recipe: (id, at = Infinity) => {
      const editions = store.naming('recipe.published', id).filter((found) => found.data.recipeId === id);
      return editions.findLast((edition) => edition.at.at <= at) ?? editions[0];
    },
    recipes: () => store.ofType('recipe.published'),
    lot,
    lots: () => {
      const received = store.ofType('lot.received').map((record) => record.data.lotId);
      const finished = store.ofType('pile.finished').map((record) => record.data.lotId);
      return [...new Set([...received, ...finished])].map(lot).filter((found) => found !== undefined);
    },
    unitOfLot: stock.unitOfLot,
    amountOf: stock.amountOf,
    tank: tanks.history,
    tanksFollowing: tanks.following,
    batchOfDraw: loads.batchOfDraw,
    pile,
    piles: () => each(store.ofType('pile.started'), (data) => data.pileId, pile),
    batch,
    batches: allBatches,
    batchesIn,
    draw: drawOf,
    application,
    applications: () => each(loads.applications(), (data) => data.applicationId, application),
    applicationsOf,
    harvest,
    harvests: () => each(store.ofType('harvest.made'), (data) => data.harvestId, harvest),
    sameGround,
    view: (name, fold) => memo.view(`beside ${name}`, fold),

    add(further) {
      // What was never folded, or forgotten and not asked for since, must be folded first: only what a view has read
      // tells whether it changes.
      for (const id of unfolded) remember(id);
      unfolded.clear();
      const changed = new Set(batchesGone(memo.changed(store.add(further))));
      for (const id of store.takeNewBatchIds()) {
        const batchId = remember(id);
        if (batchId !== undefined) changed.add(batchId);
      }
      return { batches: changed };
    },

    take(further) {
      batchesGone(memo.changed(store.add(further)));
      for (const id of store.takeNewBatchIds()) unfolded.add(id);
    },

    withdraw(ids) {
      batchesGone(memo.changed(store.withdraw(ids)));
      store.takeNewBatchIds();
    },

    supposing(further, work) {
      const { changed, undo } = store.suppose(further);
      batchesGone(memo.changed(changed));
      try {
        return work();
      } finally {
        batchesGone(memo.changed(undo()));
        store.takeNewBatchIds();
      }
    },
  };
}

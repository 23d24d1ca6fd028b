import type { Application, LotMovement } from '../facts/types.ts';
import { exact, nothing, whole } from '../fold/exact.ts';
import type { OpenSeason } from '../fold/season.ts';
import type { Parcels, TankHistory } from '../fold/tank.ts';
import type { Decimal } from '../quantity/decimal.ts';
import type { CurrentRecord } from '../records/record.ts';
import { compareIds } from '../order.ts';
import { add, type Amounts, empty, parted, Pool, scaled } from './amounts.ts';
import { FlowLog } from './flowLog.ts';
import { happenings } from './happenings.ts';
import { teaOfBatch } from './tea.ts';
import { throughTank } from './throughTank.ts';
import type { TraceRef } from './types.ts';
import { within, type Within } from './within.ts';

export interface Following {
  readonly lots: ReadonlySet<string>;
  /** One batch whose tea is followed, under the key of its id. */
  readonly batch?: string;
}

/**
 * Follows lots, or the tea of a batch, through everything recorded, in order of time: each use takes its share of what
 * is in the stock, pile or tank at that moment. Nothing is visited twice, so a loop (tea onto the compost it was made
 * of) comes to its end. What is followed under a key always adds up: arrivals on ground + ends = what was put in.
 */
export class Flow {
  readonly log = new FlowLog();
  readonly #season: OpenSeason;
  readonly #following: Following;
  readonly #lots = new Map<string, Pool>();
  readonly #piles = new Map<string, Pool>();
  /** Of each followed lot, what was taken out of stock. */
  readonly #used = new Map<string, Decimal>();
  /** What each addition or fill brought into its tank, by record. */
  readonly #parcels = new Map<string, Amounts>();
  readonly #followedTanks: ReadonlyMap<string, TankHistory>;
  /** Litres of the followed batch's tea. */
  readonly batchTotal: Decimal = nothing;

  /** `near` bounds what is looked at: everything that what is followed can have come into. */
  constructor(
    season: OpenSeason,
    following: Following,
    near: Within = within(season, following.lots, following.batch),
  ) {
    this.#season = season;
    this.#following = following;
    this.#followedTanks = following.batch === undefined ? new Map() : season.tanksFollowing(following.batch);
    if (following.batch !== undefined) {
      const { parcels, total } = teaOfBatch(season, following.batch, this.#followedTanks);
      for (const [id, amounts] of parcels) this.#parcels.set(id, amounts);
      this.batchTotal = total;
    }
    for (const each of happenings(season, near)) {
      if (each.kind === 'use') this.#use(each.lotId, each.movement);
      else if (each.kind === 'finish') this.#finish(each.finish);
      else this.#apply(each.application);
    }
    for (const id of [...near.batches].sort(compareIds)) {
      const batch = season.batch(id);
      if (batch === undefined) continue;
      const held = (parcels: Parcels) => this.held(parcels);
      const heldByDraw = (parcels: Parcels) => this.#heldByDraw(batch.id, parcels);
      throughTank(season, batch, this.tank(batch.id), { held, heldByDraw }, this.log);
    }
    this.#settle();
  }

  /** What of the followed things a body of tea holds. */
  held(parcels: Parcels): Amounts {
    const found = new Map<string, Decimal>();
    for (const [id, share] of parcels) {
      const brought = this.#parcels.get(id);
      if (brought !== undefined) add(found, scaled(brought, share));
    }
    return found;
  }

  /** The tank's history as this trace sees it. */
  tank(batchId: string): TankHistory {
    return this.#followedTanks.get(batchId) ?? this.#season.tank(batchId);
  }

  #lot(lotId: string): Pool {
    let pool = this.#lots.get(lotId);
    if (pool === undefined) {
      const lot = this.#season.lot(lotId);
      pool = new Pool(lot === undefined ? null : this.#season.amountOf(lotId, lot.quantity, lot.at));
      this.#lots.set(lotId, pool);
    }
    return pool;
  }

  /** An amount leaves a lot: all of it the lot's own, and its share of whatever else the lot has taken up. */
  #take(lotId: string, amount: Decimal | null): Amounts {
    const pool = this.#lot(lotId);
    const taken = new Map(pool.take(amount));
    if (this.#following.lots.has(lotId)) {
      taken.set(lotId, (taken.get(lotId) ?? nothing).plus(amount ?? nothing));
      this.#used.set(lotId, (this.#used.get(lotId) ?? nothing).plus(amount ?? nothing));
    }
    return taken;
  }

  #use(lotId: string, movement: LotMovement): void {
    const amounts = this.#take(lotId, movement.amount);
    if (amounts.size === 0) return;
    const { into, recordId } = movement;
    const from: TraceRef = { kind: 'lot', id: lotId };
    if (movement.amount === null)
      this.log.gap(recordId, 'how much of the lot this was cannot be told in the lot’s unit');
    if (movement.kind === 'disposed') {
      this.log.ends.push({ kind: 'lotDisposed', at: from, recordId, amounts, why: 'thrown away from stock' });
      return;
    }
    if (into?.kind !== 'batch' && into?.kind !== 'pile') return;
    this.log.step(from, { kind: into.kind, id: into.id }, recordId, amounts);
    if (into.kind === 'batch') this.#parcels.set(recordId, amounts);
    else add(this.#pile(into.id).holds, amounts);
  }

  #pile(pileId: string): Pool {
    let pool = this.#piles.get(pileId);
    if (pool === undefined) this.#piles.set(pileId, (pool = new Pool(null)));
    return pool;
  }

  /** A finished lot takes its part of the pile: by quantity against what is still to be finished of it. */
  #finish(finish: CurrentRecord<'pile.finished'>): void {
    const { pileId, lotId } = finish.data;
    const pool = this.#piles.get(pileId);
    if (pool === undefined || pool.holds.size === 0) return;
    const finishes = this.#season.ofType('pile.finished').filter((each) => each.data.pileId === pileId);
    const rest = finishes.slice(finishes.findIndex((each) => each.id === finish.id));
    const unit = this.#season.unitOfLot(rest[0]?.data.lotId ?? '');
    const sizes = rest.map((each) =>
      unit === null || this.#season.unitOfLot(each.data.lotId) !== unit
        ? null
        : this.#season.amountOf(each.data.lotId, each.data.quantity, each.at),
    );
    const known = sizes.filter((size) => size !== null);
    const weights = known.length === sizes.length ? known : sizes.map(() => whole);
    if (known.length !== sizes.length) {
      this.log.gap(pileId, 'its lots were weighed in units that cannot be compared: shared out equally');
    }
    const amounts = parted(pool.holds, weights)[0] ?? empty;
    for (const [key, amount] of amounts) pool.holds.set(key, (pool.holds.get(key) ?? nothing).minus(amount));
    this.log.step({ kind: 'pile', id: pileId }, { kind: 'lot', id: lotId }, finish.id, amounts);
    add(this.#lot(lotId).holds, amounts);
  }

  #apply(application: Application): void {
    const to: TraceRef = { kind: 'application', id: application.id };
    const recordId = application.record.id;
    const total = new Map<string, Decimal>();
    for (const load of application.loads) {
      if (load.batchId === null) continue;
      const amounts = this.#partApplied(load.batchId, load.drawSubjectId, application.id);
      if (amounts.size === 0) continue;
      this.log.step({ kind: 'draw', id: load.drawSubjectId }, to, recordId, amounts);
      add(total, amounts);
    }
    for (const { lotId, quantity } of application.record.data.tankMix ?? []) {
      const amounts = this.#take(lotId, this.#season.amountOf(lotId, quantity, application.started));
      if (amounts.size === 0) continue;
      this.log.step({ kind: 'lot', id: lotId }, to, recordId, amounts);
      add(total, amounts);
    }
    if (total.size === 0) return;
    if (application.targets.length === 0) {
      this.log.gap(application.id, 'the application names no target', total);
    }
    for (const target of application.targets) {
      const amounts = scaled(total, target.share);
      if (target.lotId !== undefined) {
        this.log.step(to, { kind: 'lot', id: target.lotId }, recordId, amounts);
        add(this.#lot(target.lotId).holds, amounts);
      } else if (target.fieldId !== undefined) {
        this.log.arrivals.push({ application, target, fieldId: target.fieldId, amounts });
        this.log.step(to, { kind: 'field', id: target.fieldId }, recordId, amounts);
      }
    }
    if (application.targets.length > 1 && application.targets[0]?.splitBy === 'equal') {
      this.log.gap(application.id, 'volume and area of its targets are not all known: shared out equally');
    }
  }

  /** The part of a load that one application put out: the whole rest of it, or an equal part for each that names it. */
  #partApplied(batchId: string, drawId: string, applicationId: string): Amounts {
    const sharing = this.#season.draw(drawId)?.draw.applicationIds ?? [];
    const held = this.#heldByDraw(batchId, this.tank(batchId).draws.get(drawId)?.kept ?? new Map());
    if (held.size === 0) return empty;
    const parts = parted(
      held,
      sharing.map(() => whole),
    );
    if (sharing.length > 1) this.log.gap(drawId, 'several applications name this load: shared out equally');
    return parts[sharing.findIndex((id) => id === applicationId)] ?? empty;
  }

  /** Tea of the followed batch is in each of its draws, even where no fill was recorded. */
  #heldByDraw(batchId: string, parcels: Parcels): Amounts {
    const held = this.held(parcels);
    return batchId === this.#following.batch && !held.has(batchId) ? new Map([...held, [batchId, nothing]]) : held;
  }

  /** What stayed in piles and in stock. */
  #settle(): void {
    for (const [id, { holds }] of this.#piles)
      this.log.end('leftInPile', { kind: 'pile', id }, holds, 'still in the pile');
    for (const [id, { holds }] of this.#lots) this.log.end('leftInStock', { kind: 'lot', id }, holds, 'still in stock');
    for (const id of this.#following.lots) {
      const lot = this.#season.lot(id);
      const received = lot && this.#season.amountOf(id, lot.quantity, lot.at);
      if (!received) continue;
      const left = exact(received).minus(this.#used.get(id) ?? nothing);
      if (left.gt(0))
        this.log.end('leftInStock', { kind: 'lot', id }, new Map([[id, left]]), 'still in stock by the books');
      if (left.lt(0)) this.log.gap(id, 'more of it was used than was received');
    }
  }
}

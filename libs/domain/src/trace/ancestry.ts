import type { Instant, Moment } from '../facts/time.ts';
import type { Application, Batch, Draw } from '../facts/types.ts';
import type { OpenSeason } from '../fold/season.ts';
import type { Parcels } from '../fold/tank.ts';
import type { Quantity } from '../quantity/quantity.ts';
import type { TraceBuilder } from './build.ts';
import { inLotUnit, intoBatch, outOfDraw } from './edges.ts';
import type { TraceEdge, TraceRef } from './types.ts';

/**
 * Walks back from applications, tanks, piles and lots to everything that may be in them, edge by edge, in time: of a
 * lot that was wetted, or a pile that was added to, only what came before the use. Nothing is walked twice, so a loop
 * ends.
 */
export class Ancestry {
  /** Lots found on the way, each once. */
  readonly lots = new Set<string>();
  /** Batches found on the way. */
  readonly batches = new Set<string>();
  readonly #season: OpenSeason;
  readonly #built: TraceBuilder;
  readonly #applications = new Set<string>();
  readonly #draws = new Set<string>();
  readonly #parcels = new Set<string>();
  readonly #lotsUntil = new Map<string, Instant>();
  readonly #pilesUntil = new Map<string, Instant>();

  constructor(season: OpenSeason, built: TraceBuilder) {
    this.#season = season;
    this.#built = built;
  }

  /** Everything that one application put out. */
  application(application: Application): void {
    if (this.#applications.has(application.id)) return;
    this.#applications.add(application.id);
    const to: TraceRef = { kind: 'application', id: application.id };
    for (const load of application.loads) {
      const found = this.#season.draw(load.drawSubjectId);
      if (found === undefined) {
        this.#built.unresolved({ id: load.drawSubjectId, why: 'no record says from which batch this load was drawn' });
        this.#built.edge({ from: { kind: 'draw', id: load.drawSubjectId }, to, recordId: application.record.id });
        continue;
      }
      for (const edge of outOfDraw(this.#season, found.batch, found.draw)) {
        if (edge.to.kind === 'application' && edge.to.id === application.id) this.#built.edge(edge);
      }
      this.#draw(found.batch, found.draw);
    }
    const mix = Map.groupBy(application.record.data.tankMix ?? [], ({ lotId }) => lotId);
    for (const [lotId, parts] of mix) {
      this.#taken(lotId, parts, application.started, to, application.record.id);
      this.lot(lotId, application.started.at);
    }
  }

  #draw(batch: Batch, draw: Draw): void {
    if (this.#draws.has(draw.id)) return;
    this.#draws.add(draw.id);
    const to: TraceRef = { kind: 'draw', id: draw.id };
    for (const edge of outOfDraw(this.#season, batch, draw)) if (edge.to.id === to.id) this.#built.edge(edge);
    const drawn = this.#season.tank(batch.id).draws.get(draw.id);
    if (drawn?.share === null) {
      this.#built.unresolved({
        id: draw.id,
        why: 'what part of the tank this load was cannot be told: more was drawn than recorded as filled',
      });
    }
    if (drawn !== undefined) this.#tea(batch, drawn.parcels, draw.at.at);
  }

  /** Everything that was ever put into a batch. */
  batch(batch: Batch): void {
    const tank = this.#season.tank(batch.id);
    const inside = new Map<string, null>(batch.ingredients.map((each) => [each.recordId, null]));
    for (const parcels of tank.carriedIn.values()) for (const id of parcels.keys()) inside.set(id, null);
    this.#tea(batch, inside, Infinity);
  }

  /** Tea of a batch, by the parcels in it, as it was at an instant. */
  #tea(batch: Batch, parcels: ReadonlyMap<string, unknown>, until: Instant): void {
    this.batches.add(batch.id);
    this.#built.node({ kind: 'batch', id: batch.id });
    if (batch.receivedTea !== null) {
      const { from } = batch.receivedTea.data;
      this.#built.unresolved({
        id: batch.id,
        why: `tea received from ${from.name}: what went into it is in their records`,
      });
    }
    for (const edge of intoBatch(this.#season, batch)) {
      const record = this.#season.record(edge.recordId);
      if (edge.from.kind === 'lot' && parcels.has(edge.recordId)) this.#addition(edge, record?.at.at ?? until);
      // What comes in the very minute of a draw comes after it.
      const before = record === undefined || record.at.at < until;
      if (edge.from.kind === 'draw' && before) this.#carried(batch, edge, parcels);
    }
  }

  #addition(edge: TraceEdge, at: Instant): void {
    this.#built.edge(edge);
    if (this.#parcels.has(edge.recordId)) return;
    this.#parcels.add(edge.recordId);
    this.lot(edge.from.id, at);
  }

  /** Tea carried over from another batch, where something of it is in what is looked at. */
  #carried(batch: Batch, edge: TraceEdge, parcels: ReadonlyMap<string, unknown>): void {
    const brought: Parcels | undefined = this.#season.tank(batch.id).carriedIn.get(edge.recordId);
    if (brought === undefined || ![...brought.keys()].some((id) => parcels.has(id))) return;
    this.#built.edge(edge);
    const source = this.#season.draw(edge.from.id);
    if (source !== undefined) this.#draw(source.batch, source.draw);
  }

  /** What a lot consisted of at an instant: the pile it came out of, tea it had been wetted with. */
  lot(lotId: string, until: Instant): void {
    this.lots.add(lotId);
    const to: TraceRef = { kind: 'lot', id: lotId };
    this.#built.node(to);
    const walked = this.#lotsUntil.get(lotId) ?? -Infinity;
    if (until <= walked) return;
    this.#lotsUntil.set(lotId, until);
    const lot = this.#season.lot(lotId);
    if (lot === undefined) {
      this.#built.unresolved({ id: lotId, why: 'no record describes this lot' });
      return;
    }
    if (lot.origin.kind === 'pile') {
      const { pileId, record } = lot.origin;
      const quantity =
        inLotUnit(this.#season, lotId, this.#season.amountOf(lotId, lot.quantity, lot.at)) ?? lot.quantity;
      this.#built.edge({ from: { kind: 'pile', id: pileId }, to, quantity, recordId: record.id });
      this.pile(pileId, record.at.at);
    }
    for (const movement of lot.movements) {
      if (movement.kind !== 'application' || movement.at.at > until || movement.into === undefined) continue;
      const application = this.#season.application(movement.into.id);
      if (application === undefined) continue;
      const from: TraceRef = { kind: 'application', id: application.id };
      this.#built.edge({ from, to, recordId: movement.recordId });
      if (this.#built.leads(to, from)) {
        this.#built.unresolved({
          id: lotId,
          why: 'a loop: it was wetted with tea in which it may be itself; followed once',
        });
      }
      this.application(application);
    }
  }

  /** What had gone into a pile by an instant. */
  pile(pileId: string, until: Instant): void {
    const to: TraceRef = { kind: 'pile', id: pileId };
    this.#built.node(to);
    if (until <= (this.#pilesUntil.get(pileId) ?? -Infinity)) return;
    this.#pilesUntil.set(pileId, until);
    const pile = this.#season.pile(pileId);
    if (pile === undefined)
      this.#built.unresolved({ id: pileId, why: 'no record says what this pile was started with' });
    const inputs = pile?.inputs.filter(({ at }) => at.at <= until) ?? [];
    for (const [first, ...more] of Map.groupBy(inputs, ({ lotId, recordId }) => `${lotId} ${recordId}`).values()) {
      if (first === undefined) continue;
      const { lotId, at, recordId } = first;
      this.#taken(lotId, [first, ...more], at, to, recordId);
      this.lot(lotId, at.at);
    }
  }

  /** The step of a lot into a pile or a tank mix: what one record names of it, once or in several parts. */
  #taken(
    lotId: string,
    parts: readonly { readonly quantity: Quantity }[],
    at: Moment,
    to: TraceRef,
    recordId: string,
  ): void {
    const amounts = parts.map(({ quantity }) => this.#season.amountOf(lotId, quantity, at));
    const known = amounts.filter((amount) => amount !== null);
    const sum = known.length < parts.length ? null : known.reduce((all, each) => all.plus(each));
    // As it was written, where it cannot be told in the lot's unit; several that cannot be are no one amount.
    const quantity = inLotUnit(this.#season, lotId, sum) ?? (parts.length === 1 ? parts[0]?.quantity : undefined);
    this.#built.edge({ from: { kind: 'lot', id: lotId }, to, recordId, ...(quantity && { quantity }) });
  }
}

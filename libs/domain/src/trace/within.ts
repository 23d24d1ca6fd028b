import type { Application, LotMovement, Season } from '../facts/types.ts';
import type { Quantity } from '../quantity/quantity.ts';
import type { CurrentRecord } from '../records/record.ts';

/** Things that what is followed may have come into. */
export interface Within {
  /** Lots with their movements. */
  readonly lots: ReadonlyMap<string, readonly LotMovement[]>;
  readonly finishes: readonly CurrentRecord<'pile.finished'>[];
  readonly applications: readonly Application[];
  readonly batches: ReadonlySet<string>;
}

/**
 * Everything that lots, or a batch's tea, can have come into, whatever the order of time: what lies outside holds nothing
 * of them, and need not be looked at. A season has thousands of batches, of which a lot went into a few.
 */
export function within(season: Season, lotIds: Iterable<string>, batchId?: string): Within {
  const named = new Set(lotIds);
  const lots = new Map<string, readonly LotMovement[]>();
  const piles = new Set<string>();
  const batches = new Set<string>();
  const applications = new Map<string, Application>();
  const finishesOf = Map.groupBy(season.ofType('pile.finished'), ({ data }) => data.pileId.toString());

  const [lotsToVisit, batchesToVisit] = [[...named], batchId === undefined ? [] : [batchId]];
  const visitApplication = (application: Application | undefined): void => {
    if (application === undefined || applications.has(application.id)) return;
    applications.set(application.id, application);
    for (const { lotId } of application.targets) if (lotId !== undefined) lotsToVisit.push(lotId);
  };
  const visitPile = (id: string): void => {
    if (piles.has(id)) return;
    piles.add(id);
    for (const { data } of finishesOf.get(id) ?? []) lotsToVisit.push(data.lotId);
  };
  const visitLot = (id: string): void => {
    if (lots.has(id)) return;
    const movements = season.lot(id)?.movements ?? (named.has(id) ? bareUses(season, id) : []);
    lots.set(id, movements);
    // Of a lot that no record describes there are no movements; what names it in a sprayer is looked up.
    if (season.lot(id) === undefined)
      for (const record of season.about(id))
        if (record.type === 'application.made') visitApplication(season.application(record.data.applicationId));
    for (const { into } of movements) {
      if (into?.kind === 'batch') batchesToVisit.push(into.id);
      else if (into?.kind === 'pile') visitPile(into.id);
      else if (into?.kind === 'application') visitApplication(season.application(into.id));
    }
  };
  const visitBatch = (id: string): void => {
    if (batches.has(id)) return;
    batches.add(id);
    season.applicationsOf(id).forEach(visitApplication);
    for (const { ended } of season.batch(id)?.draws ?? [])
      for (const { intoBatchId } of ended) if (intoBatchId !== undefined) batchesToVisit.push(intoBatchId);
  };
  while (lotsToVisit.length + batchesToVisit.length > 0) {
    for (let id = lotsToVisit.pop(); id !== undefined; id = lotsToVisit.pop()) visitLot(id);
    for (let id = batchesToVisit.pop(); id !== undefined; id = batchesToVisit.pop()) visitBatch(id);
  }
  const finishes = [...piles].flatMap((id) => finishesOf.get(id) ?? []);
  return { lots, finishes, applications: [...applications.values()], batches };
}

/** Uses of a lot whose receipt is not known yet: it went there, how much of it cannot be told. */
function bareUses(season: Season, lotId: string): LotMovement[] {
  const uses: LotMovement[] = [];
  for (const record of season.about(lotId)) {
    const { id: recordId, at } = record;
    const use = (kind: LotMovement['kind'], quantity: Quantity, into: LotMovement['into']) =>
      uses.push({ kind, at, quantity, amount: null, recordId, ...(into && { into }) });
    if (record.type === 'batch.ingredientAdded' || record.type === 'batch.neutralizerAdded') {
      use('batch', record.data.quantity, { kind: 'batch', id: record.data.batchId });
    }
    if (record.type === 'pile.added') use('pile', record.data.quantity, { kind: 'pile', id: record.data.pileId });
    if (record.type === 'pile.started') {
      const into = { kind: 'pile', id: record.data.pileId } as const;
      for (const input of record.data.inputs) if (input.lotId === lotId) use('pile', input.quantity, into);
    }
  }
  return uses;
}

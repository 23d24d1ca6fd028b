import { comparePlaces, type Place } from '../order.ts';
import { rankOf } from '../records/catalogue.ts';
import type { Application, LotMovement, Season } from '../facts/types.ts';
import type { Quantity } from '../quantity/quantity.ts';
import type { CurrentRecord } from '../records/record.ts';

/** What moves lots about, in the order in which it happened. */
export type Happening = Place &
  (
    | { readonly kind: 'use'; readonly lotId: string; readonly movement: LotMovement }
    | { readonly kind: 'finish'; readonly finish: CurrentRecord<'pile.finished'> }
    | { readonly kind: 'application'; readonly application: Application }
  );

/** Uses of lots, finishes of piles, applications; of lots that no record describes, those of `undescribed`. */
export function happenings(season: Season, undescribed: Iterable<string>): Happening[] {
  const found: Happening[] = [];
  const firstUse = new Map<string, number>();
  const lots = season.lots().map(({ id, movements }) => ({ id: id.toString(), movements }));
  for (const id of undescribed) if (season.lot(id) === undefined) lots.push({ id, movements: bareUses(season, id) });
  for (const lot of lots) {
    for (const movement of lot.movements) {
      const record = season.record(movement.recordId);
      if (record === undefined || !isUse(movement)) continue;
      found.push({
        instant: movement.at.at,
        rank: rankOf(record.type),
        id: record.id,
        kind: 'use',
        lotId: lot.id,
        movement,
      });
      firstUse.set(lot.id, Math.min(firstUse.get(lot.id) ?? Infinity, movement.at.at));
    }
  }
  for (const finish of season.ofType('pile.finished')) {
    // Used before it was recorded as finished: the use shows that it was there.
    const instant = Math.min(finish.at.at, firstUse.get(finish.data.lotId) ?? Infinity);
    found.push({ instant, rank: rankOf(finish.type), id: finish.id, kind: 'finish', finish });
  }
  for (const application of season.applications()) {
    const draws = application.loads.map((load) => season.draw(load.drawSubjectId)?.draw.at.at ?? -Infinity);
    const instant = Math.max(application.started.at, ...draws);
    const { record } = application;
    found.push({ instant, rank: rankOf(record.type), id: record.id, kind: 'application', application });
  }
  return found.sort(comparePlaces);
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

/** Tank mixes are uses too, but happen within their application. */
function isUse({ kind }: LotMovement): boolean {
  return kind === 'batch' || kind === 'neutralizer' || kind === 'pile' || kind === 'disposed';
}

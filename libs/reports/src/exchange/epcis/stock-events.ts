import { lotClass, ownUri } from './identity.ts';
import { objectEvent } from './object-event.ts';
import { own, placeOf, type Source } from './telling.ts';
import type { TraceEvent } from './types.ts';
import { litresOf, written } from './unit-codes.ts';

/** Lots received, and lots thrown away. */
export function stockEvents(source: Source): TraceEvent[] {
  const { season, keys } = source;
  const receipts = season.ofType('lot.received').map((record): TraceEvent => {
    const { lotId, code, quantity, supplierLot, expiresOn, openingStock } = record.data;
    const supplier = season.material(record.data.materialId)?.registered.supplier;
    return objectEvent(source, record, lotId, {
      action: 'OBSERVE',
      bizStep: openingStock === true ? 'stock_taking' : 'receiving',
      disposition: 'in_progress',
      quantityList: [{ epcClass: lotClass(season, keys, lotId), ...written(season, quantity, record.at.at) }],
      ...placeOf(source),
      ...own('code', code),
      ...own('supplier', supplier),
      ...own('supplierLot', supplierLot),
      ...own('expiresOn', expiresOn),
    });
  });
  const disposals = season.ofType('lot.disposed').map((record): TraceEvent => {
    const { lotId, quantity, reason } = record.data;
    return objectEvent(source, record, lotId, {
      action: 'DELETE',
      bizStep: 'destroying',
      disposition: 'destroyed',
      quantityList: [{ epcClass: lotClass(season, keys, lotId), ...written(season, quantity, record.at.at) }],
      ...placeOf(source),
      ...own('reason', reason),
    });
  });
  return [...receipts, ...disposals];
}

/** Tea that came in from elsewhere, and tea that left the operation. */
export function teaEvents(source: Source): TraceEvent[] {
  const { season } = source;
  const received = season.ofType('tea.received').map((record): TraceEvent => {
    const { batchId, code, volume, from } = record.data;
    return objectEvent(source, record, batchId, {
      action: 'OBSERVE',
      bizStep: 'receiving',
      disposition: 'in_progress',
      quantityList: [{ epcClass: ownUri(batchId), ...written(season, volume, record.at.at) }],
      ...placeOf(source),
      ...(from.operationId === undefined
        ? {}
        : { sourceList: [{ type: 'owning_party', source: ownUri(from.operationId) }] }),
      ...own('code', code),
      ...own('supplier', from.name),
    });
  });
  const supplied = season.ofType('tea.supplied').map((record): TraceEvent => {
    const { batchId, volume, to } = record.data;
    return objectEvent(source, record, batchId, {
      action: 'OBSERVE',
      bizStep: 'shipping',
      disposition: 'in_transit',
      quantityList: [{ epcClass: ownUri(batchId), ...written(season, volume, record.at.at) }],
      ...placeOf(source),
      ...(to.operationId === undefined
        ? {}
        : { destinationList: [{ type: 'owning_party', destination: ownUri(to.operationId) }] }),
      ...own('receiver', to.name),
    });
  });
  return [...received, ...supplied, ...batchLosses(source)];
}

/** Tea that was lost, disposed of, or dumped from a sprayer. */
function batchLosses(source: Source): TraceEvent[] {
  const { season } = source;
  const gone = (batchId: string, recordId: string, litres: Parameters<typeof litresOf>[0]): TraceEvent[] => {
    const record = season.record(recordId);
    if (record === undefined) return [];
    return [
      objectEvent(source, record, batchId, {
        action: 'DELETE',
        bizStep: 'destroying',
        disposition: 'destroyed',
        quantityList: [{ epcClass: ownUri(batchId), ...litresOf(litres) }],
        ...placeOf(source),
      }),
    ];
  };
  return season
    .batches()
    .flatMap((batch) => [
      ...batch.losses
        .filter(({ kind }) => kind !== 'supplied')
        .flatMap(({ recordId, litres }) => gone(batch.id, recordId, litres)),
      ...batch.draws.flatMap(({ ended }) =>
        ended
          .filter(({ fate }) => fate === 'dumped')
          .flatMap(({ recordId, litres }) => gone(batch.id, recordId, litres)),
      ),
    ]);
}

import { harvestClass, ownUri } from './identity.ts';
import { objectEvent } from './object-event.ts';
import { own, placeOf, type Source } from './telling.ts';
import type { TraceEvent } from './types.ts';
import { written } from './unit-codes.ts';

/** Harvests, and what was shipped of them. */
export function harvestEvents(source: Source): TraceEvent[] {
  const { season, keys } = source;
  return season.harvests().flatMap((harvest): TraceEvent[] => {
    const { record, fieldId, plantingId } = harvest;
    const crop = plantingId === null ? undefined : season.planting(plantingId)?.started.data.crop;
    const epcClass = harvestClass(season, keys, harvest.id);
    const made: TraceEvent = objectEvent(
      source,
      record,
      harvest.id,
      {
        action: 'ADD',
        bizStep: 'commissioning',
        disposition: 'active',
        quantityList: [{ epcClass, ...written(season, record.data.quantity, harvest.at.at) }],
        ...placeOf(source, ownUri(fieldId)),
        ...own('code', harvest.code),
        ...own('crop', crop),
        ...own('planting', plantingId === null ? undefined : ownUri(plantingId)),
        'furrowmark:soldAs': record.data.soldAs,
      },
      harvest.at,
    );
    const shipped = harvest.shipments.map((shipment): TraceEvent =>
      objectEvent(source, shipment, shipment.id, {
        action: 'OBSERVE',
        bizStep: 'shipping',
        disposition: 'in_transit',
        quantityList: [{ epcClass, ...written(season, shipment.data.quantity, shipment.at.at) }],
        ...placeOf(source),
        ...own('receiver', shipment.data.to),
        ...own('reference', shipment.data.reference),
      }),
    );
    return [made, ...shipped];
  });
}

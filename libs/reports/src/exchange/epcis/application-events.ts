import { decimalIn, type Application, type Decimal } from '@furrowmark/domain';
import { eventId, lotClass, ownUri, saidBy } from './identity.ts';
import { own, placeOf, timeOf, type Source } from './telling.ts';
import type { QuantityElement, TraceEvent } from './types.ts';
import { amountOf, litresOf, written } from './unit-codes.ts';

/** Litres of a load that this application put out: what was drawn, less what was dumped, put back or carried over. */
function netOf(
  { season }: Source,
  application: Application,
  { drawSubjectId, litres }: Application['loads'][number],
): Decimal | null {
  const draw = season.draw(drawSubjectId)?.draw;
  // A load sprayed in two goes cannot be told apart.
  if (litres === null || draw === undefined || draw.applicationIds.some((id) => id !== application.id)) return null;
  return draw.ended.reduce<Decimal | null>(
    (rest, each) => (each.litres === null ? null : (rest?.minus(each.litres) ?? null)),
    litres,
  );
}

/** Tea of each batch that one target got. */
function teaOn(source: Source, application: Application, target: Application['targets'][number]): QuantityElement[] {
  const loads = application.loads.flatMap((load) =>
    load.batchId === null ? [] : [{ batchId: load.batchId, litres: netOf(source, application, load) }],
  );
  const stated = application.record.data.targets[application.targets.indexOf(target)]?.volume;
  const volume = stated === undefined ? null : decimalIn(stated, 'L');
  // One batch, and its volume written for this target: that outranks a computed share.
  if (volume !== null && new Set(loads.map(({ batchId }) => batchId)).size === 1) {
    return loads.slice(0, 1).map(({ batchId }) => ({ epcClass: ownUri(batchId), ...amountOf(volume, 'L') }));
  }
  return loads.map(({ batchId, litres }) => ({
    epcClass: ownUri(batchId),
    ...litresOf(litres?.times(target.share) ?? null),
  }));
}

/** Applications, an event for each target: tea was used up on a field, or became part of a lot that it wetted. */
export function applicationEvents(source: Source): TraceEvent[] {
  const { season, keys } = source;
  return season.applications().flatMap((application) =>
    application.targets.flatMap((target, place): TraceEvent[] => {
      const { record } = application;
      const mixed = record.data.tankMix?.map(({ lotId, quantity }) => {
        const amount = written(season, quantity, application.started.at);
        const share =
          amount === null
            ? null
            : { ...amount, quantity: target.share.times(amount.quantity).toSignificantDigits(12).toNumber() };
        return { epcClass: lotClass(season, keys, lotId), ...share };
      });
      const used = [...teaOn(source, application, target), ...(mixed ?? [])];
      if (used.length === 0) return [];
      const common = {
        eventID: eventId([saidBy(record)], application.targets.length === 1 ? '' : String(place)),
        ...timeOf(source, application.started, record.recordedAt),
        bizStep: 'other',
        ...placeOf(source, target.fieldId === undefined ? undefined : ownUri(target.fieldId)),
        ...own('code', record.data.code),
        'furrowmark:method': record.data.method,
        ...own('plantings', target.plantingIds.map(ownUri).join(' ')),
      };
      const { id: about } = application;
      const base = { about, at: application.started.at, recordIds: [record.id] };
      if (target.lotId === undefined)
        return [{ ...base, event: { ...common, type: 'ObjectEvent', action: 'DELETE', quantityList: used } }];
      const outputQuantityList = [{ epcClass: lotClass(season, keys, target.lotId) }];
      return [
        {
          ...base,
          event: {
            ...common,
            type: 'TransformationEvent',
            transformationID: ownUri(application.id),
            inputQuantityList: used,
            outputQuantityList,
          },
        },
      ];
    }),
  );
}

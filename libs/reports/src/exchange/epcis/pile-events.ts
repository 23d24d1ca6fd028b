import { eventId, lotClass, ownUri, saidBy } from './identity.ts';
import { own, placeOf, timeOf, type Source } from './telling.ts';
import type { TraceEvent } from './types.ts';
import { written } from './unit-codes.ts';

/** Piles: lots became a lot of the operation's own. What was taken of a pile earlier is not an input again. */
export function pileEvents(source: Source): TraceEvent[] {
  const { season, keys } = source;
  return season.piles().flatMap((pile) => {
    let since = -Infinity;
    return pile.finishes.map((record): TraceEvent => {
      const { lotId, code, quantity, curedFrom } = record.data;
      const inputs = pile.inputs.filter(({ at }) => at.at > since && at.at <= record.at.at);
      since = record.at.at;
      const said = [record, ...inputs.map(({ recordId }) => season.record(recordId))].filter(
        (each) => each !== undefined,
      );
      return {
        about: lotId,
        at: record.at.at,
        recordIds: said.map(({ id }) => id),
        event: {
          type: 'TransformationEvent',
          eventID: eventId([...new Set(said.map(saidBy))], 'finished'),
          ...timeOf(source, record.at, record.recordedAt),
          transformationID: ownUri(pile.id),
          ...(inputs.length === 0
            ? {}
            : {
                inputQuantityList: inputs.map((input) => ({
                  epcClass: lotClass(season, keys, input.lotId),
                  ...written(season, input.quantity, input.at.at),
                })),
              }),
          outputQuantityList: [{ epcClass: lotClass(season, keys, lotId), ...written(season, quantity, record.at.at) }],
          bizStep: 'commissioning',
          disposition: 'active',
          ...placeOf(source),
          ...own('code', code),
          ...own('curedFrom', curedFrom),
          'furrowmark:method': pile.started.data.method,
        },
      };
    });
  });
}

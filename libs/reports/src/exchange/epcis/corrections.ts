import { instantOf, utcText, type Season } from '@furrowmark/domain';
import type { TraceEvent } from './types.ts';

/**
 * Events that the records as first written gave and the records as they stand do not: EPCIS takes such an event back by
 * sending it once more with an error declaration, which names the event that stands in its place.
 */
export function takenBack(season: Season, first: readonly TraceEvent[], standing: readonly TraceEvent[]): TraceEvent[] {
  const ids = new Set(standing.map(({ event }) => event.eventID));
  return first
    .filter(({ event }) => !ids.has(event.eventID))
    .flatMap((wrong): TraceEvent[] => {
      const corrected = wrong.recordIds.map((id) => season.record(id)).filter((record) => record !== undefined);
      const steps = corrected.flatMap(({ history }) =>
        history.filter(({ kind, inForce }) => kind !== 'original' && inForce),
      );
      const last = steps.toSorted((a, b) => a.seq - b.seq).at(-1);
      // Not corrected itself: the event only follows from another record that was.
      if (last === undefined) return [];
      const instead = standing.filter(
        ({ recordIds, about }) => about === wrong.about && recordIds.some((id) => wrong.recordIds.includes(id)),
      );
      return [
        {
          ...wrong,
          event: {
            ...wrong.event,
            errorDeclaration: {
              declarationTime: utcText(instantOf(last.recordedAt)),
              reason: instead.length === 0 ? 'did_not_occur' : 'incorrect_data',
              ...(instead.length === 0 ? {} : { correctiveEventIDs: instead.map(({ event }) => event.eventID) }),
            },
          },
        },
      ];
    });
}

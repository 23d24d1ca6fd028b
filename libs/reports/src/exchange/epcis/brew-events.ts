import type { Batch, CurrentRecord, Moment } from '@furrowmark/domain';
import { eventId, lotClass, ownUri, saidBy } from './identity.ts';
import { placeOf, recordedLast, timeOf, type Source } from './telling.ts';
import type { QuantityElement, TraceEvent } from './types.ts';
import { litresOf, written } from './unit-codes.ts';

/** Something that went into a tank. */
interface Addition {
  readonly at: Moment;
  readonly recordId: string;
  readonly input: QuantityElement;
}

/** Rests of loads that went into another batch's tank, by that batch. */
function carriedOver({ season }: Source): ReadonlyMap<string, Addition[]> {
  const found = new Map<string, Addition[]>();
  for (const other of season.batches()) {
    for (const { at, recordId, litres, intoBatchId } of other.draws.flatMap(({ ended }) => ended)) {
      if (intoBatchId === undefined) continue;
      const into = found.get(intoBatchId) ?? [];
      found.set(intoBatchId, [...into, { at, recordId, input: { epcClass: ownUri(other.id), ...litresOf(litres) } }]);
    }
  }
  return found;
}

/** Water, lots and other batches' tea that went into a batch, in order of time. */
function additionsTo({ season, keys }: Source, batch: Batch, carriedInto: ReadonlyMap<string, Addition[]>): Addition[] {
  const water = batch.fills.map(({ finished, recordId, sourceId, quantity }) => ({
    at: finished,
    recordId,
    input: { epcClass: ownUri(sourceId), ...written(season, quantity, finished.at) },
  }));
  const lots = batch.ingredients.map(({ at, recordId, lotId, quantity }) => ({
    at,
    recordId,
    input: { epcClass: lotClass(season, keys, lotId), ...written(season, quantity, at.at) },
  }));
  const carried = carriedInto.get(batch.id) ?? [];
  return [...water, ...lots, ...carried].sort((a, b) => a.at.at - b.at.at);
}

/**
 * What went in before the first draw, then between draws: a tank that is fed and drawn from all season is several
 * transformations under one id, so nothing seems to have been in a load that was drawn before it went in.
 */
function stretches(additions: readonly Addition[], draws: readonly number[]): Addition[][] {
  const found: Addition[][] = [];
  let last: number | null = null;
  for (const addition of additions) {
    const before = last;
    if (before === null || draws.some((draw) => draw >= before && draw < addition.at.at)) found.push([addition]);
    else found.at(-1)?.push(addition);
    last = addition.at.at;
  }
  return found;
}

/** Batches: water and lots became tea. */
export function brewEvents(source: Source): TraceEvent[] {
  const { season } = source;
  const carriedInto = carriedOver(source);
  return season.batches().flatMap((batch) => {
    const taken = [...batch.draws.map(({ at }) => at.at), ...batch.losses.map(({ at }) => at.at)];
    const drawn = new Set<string>([
      ...batch.draws.flatMap(({ recordIds }) => recordIds),
      ...batch.losses.map(({ recordId }) => recordId),
    ]);
    return stretches(additionsTo(source, batch, carriedInto), taken).flatMap((stretch): TraceEvent[] => {
      const records = stretch.map(({ recordId }) => season.record(recordId)).filter((each) => each !== undefined);
      const last = stretch.at(-1);
      if (last === undefined || records.length === 0) return [];
      const content = batch.content.findLast(({ at, recordId }) => at.at <= last.at.at && !drawn.has(recordId));
      return [
        {
          about: batch.id,
          at: last.at.at,
          recordIds: records.map(({ id }) => id),
          event: {
            type: 'TransformationEvent',
            eventID: eventId(inOrder(records), 'brewed'),
            ...timeOf(source, last.at, recordedLast(records)),
            transformationID: ownUri(batch.id),
            inputQuantityList: stretch.map(({ input }) => input),
            outputQuantityList: [{ epcClass: ownUri(batch.id), ...litresOf(content?.litres ?? null) }],
            bizStep: 'commissioning',
            disposition: 'in_progress',
            ...placeOf(source, batch.vesselId === null ? undefined : ownUri(batch.vesselId)),
            'furrowmark:code': batch.code,
          },
        },
      ];
    });
  });
}

const inOrder = (records: readonly CurrentRecord[]): string[] => records.map(saidBy).sort();

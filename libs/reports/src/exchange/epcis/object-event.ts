import type { CurrentRecord, Moment } from '@furrowmark/domain';
import { eventId, saidBy } from './identity.ts';
import { timeOf, type Source } from './telling.ts';
import type { ObjectEvent, TraceEvent } from './types.ts';

type Told = Omit<ObjectEvent, 'type' | 'eventID' | 'eventTime' | 'eventTimeZoneOffset' | 'recordTime'>;

/** What one record says was seen, came to be or ceased to be. `about`: the thing in a trace that it belongs to. */
export const objectEvent = (
  source: Source,
  record: CurrentRecord,
  about: string,
  told: Told,
  at: Moment = record.at,
): TraceEvent => ({
  about,
  at: at.at,
  recordIds: [record.id],
  event: {
    type: 'ObjectEvent',
    eventID: eventId([saidBy(record)]),
    ...timeOf(source, at, record.recordedAt),
    ...told,
  },
});

import { typeEntry } from './catalogue.ts';
import type { LogRecord } from './record.ts';

/**
 * The record as an amendment corrects it: the whole of its data, and time, uncertainty and person where the amendment
 * names them; id, type and the log's own facts stay. null where the amendment has no effect: it names another record
 * or type, or a type that is never amended.
 */
export function amendedBy(original: LogRecord, amendment: LogRecord<'record.amended'>): LogRecord | null {
  const { data } = amendment;
  if (data.recordId !== original.id || data.type !== original.type || typeEntry(data.type)?.final === true) return null;
  const corrected: object = {
    ...original,
    data: data.data,
    ...(data.occurredAt === undefined ? {} : { occurredAt: data.occurredAt }),
    ...(data.plusMinusMinutes === undefined ? {} : { plusMinusMinutes: data.plusMinusMinutes }),
    ...(data.performedBy === undefined ? {} : { performedBy: data.performedBy }),
  };
  return corrected as LogRecord; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- the amendment's data was validated for this very type when it was accepted
}

/** Whether a strike takes effect on the record: it names it and its type, and the type may be struck. */
export function struckBy(original: LogRecord, strike: LogRecord<'record.struck'>): boolean {
  const { recordId, type } = strike.data;
  return recordId === original.id && type === original.type && typeEntry(type)?.final !== true;
}

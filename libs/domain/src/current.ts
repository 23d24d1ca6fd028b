import { instantOf } from './calendar/instant.ts';
import { type Correction, CorrectionLinks, isCorrection } from './corrections.ts';
import type { Moment } from './facts/time.ts';
import { compareCurrent } from './order.ts';
import { typeEntry } from './records/catalogue.ts';
import type { CurrentRecord, LogRecord, Revision } from './records/record.ts';

/** The moment of an instant known to within so many minutes either way. */
export function momentOf(text: string, plusMinusMinutes = 0): Moment {
  const at = instantOf(text);
  return { at, from: at - plusMinusMinutes * 60_000, to: at + plusMinusMinutes * 60_000 };
}

/**
 * The records as they stand: amendments and strikes applied, in whatever order they arrived. Corrections that name a
 * record not yet here wait for it.
 *
 * Of several amendments in force the last in order counts; a strike in force outranks them all. A correction is in
 * force unless it is itself struck. One whose `type` or `version` is not its target's has no effect, nor has any on a
 * type that is only ever followed (rule-book adoptions, signatures, access records). Where corrections strike each
 * other in a ring, the later in order stands.
 */
export class CurrentRecords {
  readonly #written = new Map<string, LogRecord>();
  readonly #links = new CorrectionLinks();

  /** Takes a record and returns the ids whose standing may have changed. A known id changes nothing. */
  add(record: LogRecord): Iterable<string> {
    if (this.#written.has(record.id)) return [];
    this.#written.set(record.id, record);
    if (isCorrection(record)) this.#links.add(record);
    return this.#links.reach(record.id);
  }

  written(id: string): LogRecord | undefined {
    return this.#written.get(id);
  }

  /** The record as it stands now; undefined while it is unknown. */
  current(id: string): CurrentRecord | undefined {
    const record = this.#written.get(id);
    if (record === undefined) return undefined;
    if (this.#links.correctorsOf(id).size === 0 || typeEntry(record.type)?.final === true) return asWritten(record);
    const corrections = this.#links
      .countingAgainst(record, (known) => this.#written.get(known))
      .map((correction) => this.current(correction.id))
      .filter((correction) => correction !== undefined)
      .filter(isCurrentCorrection)
      .filter((correction) => correction.data.recordId === id && correction.data.type === record.type)
      .filter((correction) => correction.type === 'record.struck' || correction.data.version === record.version)
      .sort(compareCurrent);
    return corrected(record, corrections);
  }
}

type CurrentCorrection = CurrentRecord<'record.amended'> | CurrentRecord<'record.struck'>;

function isCurrentCorrection(record: CurrentRecord): record is CurrentCorrection {
  return record.type === 'record.amended' || record.type === 'record.struck';
}

function asWritten(record: LogRecord): CurrentRecord {
  return { ...record, at: momentOf(record.occurredAt, record.plusMinusMinutes), state: 'current', history: [] };
}

function corrected(record: LogRecord, corrections: readonly CurrentCorrection[]): CurrentRecord {
  if (corrections.length === 0) return asWritten(record);
  const inForce = corrections.filter((correction) => correction.state !== 'struck');
  const strike = inForce.findLast((correction) => correction.type === 'record.struck');
  const amendment = inForce.findLast(
    (correction) => correction.type === 'record.amended' && amended(record, correction) !== null,
  );
  const now = (amendment?.type === 'record.amended' ? amended(record, amendment) : null) ?? record;
  const decisive = strike ?? amendment;
  const original: Revision = {
    ...revision(record),
    kind: 'original',
    data: record.data,
    inForce: decisive === undefined,
  };
  return {
    ...now,
    at: momentOf(now.occurredAt, now.plusMinusMinutes),
    state: strike !== undefined ? 'struck' : amendment !== undefined ? 'amended' : 'current',
    history: [
      original,
      ...corrections.map((correction): Revision => {
        const step = { ...revision(correction), reason: correction.data.reason, inForce: correction === decisive };
        return correction.type === 'record.amended'
          ? { ...step, kind: 'amended', data: correction.data.data }
          : { ...step, kind: 'struck' };
      }),
    ],
  };
}

function revision(record: LogRecord | Correction | CurrentCorrection) {
  const { id, seq, occurredAt, recordedAt, recordedBy } = record;
  return { recordId: id, seq, occurredAt, recordedAt, recordedBy };
}

/** The record with an amendment applied; what the amendment leaves out stays. null where its data is not of that type. */
function amended(record: LogRecord, { data }: CurrentRecord<'record.amended'>): LogRecord | null {
  const parsed = typeEntry(record.type)?.schema.safeParse(data.data);
  if (parsed?.success !== true) return null;
  const { occurredAt, plusMinusMinutes, performedBy } = data;
  return {
    ...record,
    data: parsed.data,
    ...(occurredAt === undefined ? {} : { occurredAt }),
    ...(plusMinusMinutes === undefined ? {} : { plusMinusMinutes }),
    ...(performedBy === undefined ? {} : { performedBy }),
  } as LogRecord; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- parsed by this very type's schema
}

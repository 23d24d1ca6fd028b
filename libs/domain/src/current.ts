import { instantOf } from './calendar/instant.ts';
import { type Correction, CorrectionLinks, isCorrection } from './corrections.ts';
import type { Moment } from './facts/time.ts';
import { compareCurrent } from './order.ts';
import { amendedBy, struckBy } from './records/amended.ts';
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

  /** Takes a record back; returns the ids whose standing may have changed. */
  remove(id: string): Iterable<string> {
    const record = this.#written.get(id);
    if (record === undefined) return [];
    const reached = this.#links.reach(id);
    this.#written.delete(id);
    if (isCorrection(record)) this.#links.remove(record);
    return reached;
  }

  written(id: string): LogRecord | undefined {
    return this.#written.get(id);
  }

  /** The record as it stands now; undefined while it is unknown. */
  current(id: string): CurrentRecord | undefined {
    const record = this.#written.get(id);
    if (record === undefined) return undefined;
    if (this.#links.correctorsOf(id).size === 0) return asWritten(record);
    const corrections = this.#links
      .countingAgainst(record, (known) => this.#written.get(known))
      .map((correction) => this.current(correction.id))
      .filter((correction) => correction !== undefined)
      .filter(isCurrentCorrection)
      .filter((correction) => hasEffect(record, correction))
      .sort(compareCurrent);
    return corrected(record, corrections);
  }
}

type CurrentCorrection = CurrentRecord<'record.amended'> | CurrentRecord<'record.struck'>;

function isCurrentCorrection(record: CurrentRecord): record is CurrentCorrection {
  return record.type === 'record.amended' || record.type === 'record.struck';
}

/** Not where the record is of another type or version than the correction says, or of a type only ever followed. */
function hasEffect(record: LogRecord, correction: CurrentCorrection): boolean {
  if (correction.type === 'record.struck') return struckBy(record, correction);
  return amendedBy(record, correction) !== null && correction.data.version === record.version;
}

const neverCorrected: CurrentRecord['history'] = [];

function asWritten(record: LogRecord): CurrentRecord {
  const at = momentOf(record.occurredAt, record.plusMinusMinutes);
  return { ...record, at, state: 'current', history: neverCorrected };
}

function corrected(record: LogRecord, corrections: readonly CurrentCorrection[]): CurrentRecord {
  if (corrections.length === 0) return asWritten(record);
  const inForce = corrections.filter((correction) => correction.state !== 'struck');
  const strike = inForce.findLast((correction) => correction.type === 'record.struck');
  const amendment = inForce.findLast((correction) => correction.type === 'record.amended');
  const now = (amendment?.type === 'record.amended' ? amendedBy(record, amendment) : null) ?? record;
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

import { typeEntry } from './catalogue.ts';
import type { LogRecord } from './record.ts';
import { upcast } from './upcast.ts';

/** An entry that this software cannot read: not an entry at all, or of a type or version that came later. */
export class UnreadableEntry extends Error {
  override readonly name = 'UnreadableEntry';
}

/** The members that every entry of the log has. */
interface Envelope {
  readonly id: string;
  readonly type: string;
  readonly version: number;
  readonly occurredAt: string;
  readonly operationId: string;
  readonly seq: number;
  readonly recordedAt: string;
  readonly recordedBy: string;
  readonly data: object;
}

const TEXTS = ['id', 'type', 'occurredAt', 'operationId', 'recordedAt', 'recordedBy'];

function isEnvelope(value: unknown): value is Envelope {
  if (typeof value !== 'object' || value === null) return false;
  const member = (name: string): unknown => Reflect.get(value, name);
  const data = member('data');
  return (
    TEXTS.every((name) => typeof member(name) === 'string') &&
    Number.isSafeInteger(member('version')) &&
    Number.isSafeInteger(member('seq')) &&
    typeof data === 'object' &&
    data !== null &&
    !Array.isArray(data)
  );
}

/**
 * The record that one entry of the log holds, its data (and the data of an amendment) upcast to the newest version.
 *
 * This is a trust boundary. What stands in the log was validated when it was accepted, and its bytes are vouched for
 * by the tree; a log of a hundred thousand entries is read at every rebuild. So only the envelope is looked at here,
 * and the payload is taken at its type's word. An archive from elsewhere passes its verifier and `checkEntry` first.
 * Throws UnreadableEntry.
 */
export function recordFromLog(parsed: unknown): LogRecord {
  if (!isEnvelope(parsed)) throw new UnreadableEntry('not an entry of an operation’s log');
  const entry = typeEntry(parsed.type);
  try {
    if (entry?.version === parsed.version && parsed.type !== 'record.amended') return trusted(parsed);
    const data = upcast(parsed.type, parsed.version, parsed.data);
    const version = entry?.version ?? parsed.version;
    return trusted({ ...parsed, version, data: parsed.type === 'record.amended' ? upcastAmendment(data) : data });
  } catch (error) {
    if (error instanceof RangeError) throw new UnreadableEntry(error.message);
    throw error;
  }
}

/** An amendment carries whole data of another type, in the version in which that was written. */
function upcastAmendment(data: unknown): unknown {
  if (typeof data !== 'object' || data === null) return data;
  const type: unknown = Reflect.get(data, 'type');
  const version: unknown = Reflect.get(data, 'version');
  if (typeof type !== 'string' || typeof version !== 'number') return data;
  const inner = upcast(type, version, Reflect.get(data, 'data'));
  return {
    ...data,
    version: typeEntry(type)?.version ?? version,
    data: type === 'record.amended' ? upcastAmendment(inner) : inner,
  };
}

const trusted = (entry: object): LogRecord => entry as LogRecord; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- the parse boundary described above

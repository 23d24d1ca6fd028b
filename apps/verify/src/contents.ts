import { createHash } from 'node:crypto';
import { base64, canonicalBytes, fromBase64, memberOf, textOf } from '@furrowmark/log';
import type { Envelope } from '@furrowmark/log';

/** What became of the sealed members of the log. */
export interface SealReport {
  /** Openings whose value and salt give the seal in the log. */
  readonly opened: number;
  /** Seals without an opening: kept back, or erased. */
  readonly withheld: number;
  /** Openings that do not fit, and where. */
  readonly altered: readonly string[];
}

/** What became of the documents that the log names. */
export interface DocumentReport {
  readonly matching: number;
  readonly missing: readonly NamedDocument[];
  readonly altered: readonly NamedDocument[];
  /** Files among the documents that no entry names. */
  readonly unnamed: readonly string[];
}

/** A document as an entry names it. */
export interface NamedDocument {
  readonly seq: number;
  /** 64 lower-case hexadecimal digits. */
  readonly sha256: string;
  readonly byteLength: number;
}

/** An entry that was recorded long after what it tells of. */
export interface LateEntry {
  readonly seq: number;
  readonly type: string;
  /** Hours from the event to the recording. */
  readonly hours: number;
}

/** An entry that says the log was put back from a backup. */
export interface Restored {
  readonly seq: number;
  readonly size: number | null;
  /** The size of the newest checkpoint that anyone held. */
  readonly knownSize: number | null;
}

/** From so many hours between event and recording on, an entry is listed as late. For information only. */
export const lateFromHours = 72;

/** Gathers, entry by entry, what lies beside the log: seals, documents, late recording. */
export class Contents {
  readonly late: LateEntry[] = [];
  readonly restored: Restored[] = [];
  readonly #seals = new Map<string, string>();
  readonly #documents = new Map<string, NamedDocument>();

  take(entry: Uint8Array, value: unknown, envelope: Envelope): void {
    const { seq, type, recordedAt, occurredAt } = envelope;
    const id = memberOf(value, 'id');
    if (mayHoldSeal(entry)) {
      for (const [pointer, seal] of sealsIn(value, '')) this.#seals.set(`${String(id)} ${pointer}`, seal);
    }
    const hours = (recordedAt - occurredAt) / 3_600_000;
    if (hours >= lateFromHours) this.late.push({ seq, type, hours });
    if (type === 'log.restored') {
      const numberOf = (name: string): number | null => {
        const member = memberOf(memberOf(value, 'data'), name);
        return typeof member === 'number' ? member : null;
      };
      this.restored.push({ seq, size: numberOf('size'), knownSize: numberOf('knownSize') });
    }

    // A correction carries the whole corrected entry data one level deeper.
    let data = memberOf(value, 'data');
    let about: unknown = type;
    while (
      about !== 'document.attached' &&
      memberOf(data, 'type') !== undefined &&
      memberOf(data, 'data') !== undefined
    ) {
      [about, data] = [memberOf(data, 'type'), memberOf(data, 'data')];
    }
    const [sha256, byteLength] = [memberOf(data, 'sha256'), memberOf(data, 'byteLength')];
    if (about === 'document.attached' && typeof sha256 === 'string' && typeof byteLength === 'number') {
      this.#documents.set(`${sha256} ${byteLength}`, { seq, sha256, byteLength });
    }
  }

  /** Holds the lines of the file of openings against the seals: seal = base64(SHA-256(salt || RFC 8785 text of value)). */
  async checkSeals(lines: AsyncIterable<Uint8Array>): Promise<SealReport> {
    const opened = new Set<string>();
    const altered: string[] = [];
    let number = 0;
    for await (const line of lines) {
      number += 1;
      const opening = parsed(line);
      const [recordId, pointer] = [memberOf(opening, 'recordId'), memberOf(opening, 'path')];
      const place = `${String(recordId)} ${String(pointer)}`;
      const seal = this.#seals.get(place);
      if (seal !== undefined && sealOf(opening) === seal) opened.add(place);
      else altered.push(opening === undefined ? `line ${number}, which is not JSON` : `record ${place}`);
    }
    return { opened: opened.size, withheld: this.#seals.size - opened.size, altered };
  }

  /** Holds the files of documents, named by their SHA-256, against what the entries say. */
  async checkDocuments(
    files: AsyncIterable<{ name: string; body: AsyncIterable<Uint8Array> }>,
  ): Promise<DocumentReport> {
    const found = new Map<string, { sha256: string; byteLength: number }>();
    for await (const { name, body } of files) {
      const hash = createHash('sha256');
      let byteLength = 0;
      for await (const chunk of body) {
        hash.update(chunk);
        byteLength += chunk.length;
      }
      found.set(name, { sha256: hash.digest('hex'), byteLength });
    }
    const named = [...this.#documents.values()];
    const known = new Set(named.map(({ sha256 }) => sha256));
    const matches = (document: NamedDocument): boolean => {
      const file = found.get(document.sha256);
      return file?.sha256 === document.sha256 && file.byteLength === document.byteLength;
    };
    return {
      matching: named.filter(matches).length,
      missing: named.filter(({ sha256 }) => !found.has(sha256)),
      altered: named.filter((document) => found.has(document.sha256) && !matches(document)),
      unnamed: [...found.keys()].filter((name) => !known.has(name)),
    };
  }
}

/** Few entries hold a seal, and canonical text has but one way to write its name: no need to walk through the others. */
function mayHoldSeal(entry: Uint8Array): boolean {
  return Buffer.from(entry.buffer, entry.byteOffset, entry.length).includes('{"sealed":');
}

/** Every `{"sealed": …}` within a value, with its JSON pointer (RFC 6901). */
function* sealsIn(value: unknown, pointer: string): Generator<[pointer: string, seal: string]> {
  if (typeof value !== 'object' || value === null) return;
  const members: [string, unknown][] = Object.entries(value);
  const [first] = members;
  if (members.length === 1 && first?.[0] === 'sealed' && typeof first[1] === 'string') yield [pointer, first[1]];
  for (const [name, member] of members) {
    yield* sealsIn(member, `${pointer}/${name.replaceAll('~', '~0').replaceAll('/', '~1')}`);
  }
}

/** The seal that an opening gives, or null where it gives none. */
function sealOf(opening: unknown): string | null {
  const [salt, value] = [memberOf(opening, 'salt'), memberOf(opening, 'value')];
  const saltBytes = typeof salt === 'string' ? fromBase64(salt) : null;
  if (saltBytes?.length !== 32 || value === undefined) return null;
  return base64(createHash('sha256').update(saltBytes).update(canonicalBytes(value)).digest());
}

function parsed(line: Uint8Array): unknown {
  try {
    const value: unknown = JSON.parse(textOf(line) ?? '');
    // What has no canonical text (a lone surrogate) cannot have been sealed.
    canonicalBytes(value);
    return value;
  } catch {
    return undefined;
  }
}

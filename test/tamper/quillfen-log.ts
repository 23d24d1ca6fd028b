import { createHash } from 'node:crypto';
import {
  base64,
  canonicalBytes,
  leafHash,
  originOf,
  signCheckpoint,
  signerFromSeed,
  TreeAppender,
  utf8,
  verifierKeyText,
} from '@furrowmark/log';
import type { Signer } from '@furrowmark/log';
import type { Archive } from '@furrowmark/verify';

/** An invented log of the invented Quillfen Growers, and what its owner, or a thief of its database, can do with it. */
export const operationId = '0197a000-0000-7000-8000-000000000001';
export const origin = originOf(operationId);
export const signer = signerFromSeed(origin, new Uint8Array(32).fill(11));
export const strangerSigner = signerFromSeed(origin, new Uint8Array(32).fill(12));

const start = Date.UTC(2026, 5, 1, 11);
const hour = 3_600_000;
/** When entry `seq` was recorded: one an hour. */
export const recordedAt = (seq: number): number => start + seq * hour;
/** The reader's clock. */
export const now = recordedAt(0) + 90 * 24 * hour;

export type Entry = Record<string, unknown> & { seq: number };

export const letter = utf8('a letter from the certifier');
export const label = utf8('a label of kelp meal');
const salt = new Uint8Array(32).fill(4);
const person = { initials: 'IH', name: 'Ines Harrow' };
export const sha256 = (...parts: Uint8Array[]): Buffer =>
  parts.reduce((hash, part) => hash.update(part), createHash('sha256')).digest();

const instant = (time: number): string => new Date(time).toISOString();

/** Entry `seq`: readings, but for a person (3), two documents (5, 6) and a person without an opening (9). */
export function entry(seq: number): Entry {
  const facts: Entry = {
    id: `0197a000-0000-7000-8000-${String(900_000 + seq).padStart(12, '0')}`,
    operationId,
    seq,
    version: 1,
    occurredAt: instant(recordedAt(seq) - 60_000),
    recordedAt: instant(recordedAt(seq)),
    recordedBy: '0197a000-0000-7000-8000-0000000000ac',
  };
  if (seq === 3 || seq === 9) {
    const sealed = base64(sha256(salt, canonicalBytes({ ...person, seq })));
    return { ...facts, type: 'person.registered', data: { personId: facts['id'], personal: { sealed } } };
  }
  if (seq === 5 || seq === 6) {
    const file = seq === 5 ? letter : label;
    return {
      ...facts,
      type: 'document.attached',
      data: { title: 'paper', byteLength: file.length, sha256: sha256(file).toString('hex') },
    };
  }
  return {
    ...facts,
    type: 'batch.oxygenMeasured',
    data: { dissolvedOxygen: { unit: 'mg/L', value: 6 + (seq % 7) / 10 }, depth: 'dépôt' },
  };
}

export const entries = (count: number): Entry[] => Array.from({ length: count }, (_, seq) => entry(seq));

export type Files = Map<string, Uint8Array>;

/** The signed checkpoint over such entries. */
export function checkpointOver(bytes: readonly Uint8Array[], by: Signer = signer): string {
  const tree = new TreeAppender();
  for (const each of bytes) tree.append(leafHash(each));
  return signCheckpoint({ origin: by.key.name, size: bytes.length, root: tree.root() }, [by]);
}

/** What the service writes out: the archive of these entries, signed. */
export function publish(log: readonly Entry[], by: Signer = signer): Files {
  return publishBytes(log.map(canonicalBytes), by);
}

export function publishBytes(bytes: readonly Uint8Array[], by: Signer = signer): Files {
  const opening = {
    recordId: entry(3)['id'],
    path: '/data/personal',
    value: { ...person, seq: 3 },
    salt: base64(salt),
  };
  return new Map<string, Uint8Array>([
    [
      'manifest.json',
      utf8(`{"format":"furrowmark-archive","version":1,"operationId":"${operationId}","partial":false}`),
    ],
    ['checkpoint', utf8(checkpointOver(bytes, by))],
    ['key', utf8(`${verifierKeyText(by.key)}\n`)],
    ['leaf-hashes', Buffer.concat(bytes.map(leafHash))],
    ['entries.ndjson', linesFrom(bytes)],
    ['openings.ndjson', linesFrom([canonicalBytes(opening)])],
    [`documents/${sha256(letter).toString('hex')}`, letter],
    [`documents/${sha256(label).toString('hex')}`, label],
  ]);
}

export const linesFrom = (lines: readonly Uint8Array[]): Uint8Array =>
  Buffer.concat(lines.flatMap((line) => [line, utf8('\n')]));

/** The files with some of them replaced; null takes a file away. */
export function changed(files: Files, changes: Record<string, Uint8Array | null>): Files {
  const copy = new Map(files);
  for (const [name, content] of Object.entries(changes)) {
    if (content === null) copy.delete(name);
    else copy.set(name, content);
  }
  return copy;
}

/** The archive with these entries in it and all else as it was: what can be done without the signing key. */
export const withEntries = (files: Files, log: readonly Entry[]): Files =>
  changed(files, { 'entries.ndjson': linesFrom(log.map(canonicalBytes)) });

export function inMemory(files: Files): Archive {
  return {
    files: new Map([...files].map(([name, content]) => [name, content.length])),
    async *read(name) {
      yield files.get(name) ?? new Uint8Array(0);
    },
  };
}

/** Entries numbered and timed anew, as an owner would who covers the traces. */
export const renumbered = (log: readonly Entry[]): Entry[] =>
  log.map((each, seq) => ({ ...each, seq, recordedAt: instant(recordedAt(seq)) }));

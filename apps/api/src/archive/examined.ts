import { createHash } from 'node:crypto';
import {
  base64,
  canonicalBytes,
  linesOf,
  LogVerifier,
  memberOf,
  parseVerifierKey,
  textOf,
  type Evidence,
  type VerifierKey,
} from '@furrowmark/log';
import { z } from 'zod';
import type { Opening } from '../log/index.ts';
import { checkpointIn } from '../log/index.ts';
import { Admission } from './admission.ts';
import type { Received } from './received.ts';

/** What an archive turned out to be. */
export interface Examined {
  readonly operationId: string;
  readonly size: number;
  readonly root: Uint8Array;
  /** The signed notes, by size; the newest last. */
  readonly checkpoints: ReadonlyMap<number, string>;
  readonly key: string | null;
  /** By record id. */
  readonly openings: ReadonlyMap<string, readonly Opening[]>;
}

const manifest = z.looseObject({
  format: z.literal('furrowmark-archive'),
  version: z.literal(1),
  operationId: z.string().regex(/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/),
  partial: z.boolean().default(false),
});
const opening = z.object({
  recordId: z.string(),
  path: z.string(),
  value: z.unknown(),
  salt: z.base64(),
});

/**
 * Checks an archive before anything of it is kept: the log by its own checkpoints, every entry as acceptance would, the
 * values behind the seals. `key`: a verifier key that the importer has from outside.
 * Gives what is in it, or what is wrong, in sentences.
 */
export async function examined(
  archive: Received,
  key: VerifierKey | null,
  now: number,
): Promise<Examined | { readonly faults: readonly string[] }> {
  const told = manifest.safeParse(parsed(await archive.whole('manifest.json')));
  if (!told.success)
    return { faults: ['manifest.json does not say that this is a whole-operation archive, version 1.'] };
  if (told.data.partial) return { faults: ['The archive holds a part of a log only; a whole one is needed.'] };
  const { operationId } = told.data;
  const checkpoint = await archive.whole('checkpoint');
  if (checkpoint === null) return { faults: ['The archive has no checkpoint.'] };
  const presented = parseVerifierKey(textOf((await archive.whole('key')) ?? new Uint8Array()) ?? '');
  const notes = await notesOf(archive, checkpoint);
  const leafHashes = await archive.whole('leaf-hashes');
  const verifier = new LogVerifier({
    keys: key === null ? [] : [key],
    ownKeys: presented.ok ? [presented.value] : [],
    evidence: notes,
    ...(leafHashes === null ? {} : { leafHashes }),
    now,
  });
  const unreadable: string[] = [];
  const admission = new Admission();
  const seals = new Map<string, unknown>();
  let place = 0;
  for await (const entry of linesOf(archive.read('entries.ndjson'))) {
    const value = verifier.add(entry)?.value;
    const why = value === undefined ? null : admission.refusal(entry, value);
    if (why !== null && unreadable.length < 20) unreadable.push(`Entry ${place} is no record that is taken: ${why}`);
    if (Buffer.from(entry).includes('{"sealed":')) seals.set(String(memberOf(value, 'id')), value);
    place += 1;
  }
  const report = verifier.finish();
  const faults = [...report.faults.map(({ what }) => `${what}.`), ...unreadable];
  if (report.origin !== `furrowmark/${operationId}`)
    faults.push('The entries are not of the log that manifest.json names.');
  if (place === 0) faults.push('The log has no entries.');
  const { openings, wrong } = await openingsOf(archive, seals);
  faults.push(...wrong);
  if (faults.length > 0) return { faults };
  const { size, root } = checkpointIn(checkpoint);
  const checkpoints = new Map(
    notes
      .map(({ statement }) => [checkpointIn(statement).size, textOf(statement) ?? ''] as const)
      .toSorted(([a], [b]) => a - b),
  );
  const line = presented.ok ? (textOf((await archive.whole('key')) ?? new Uint8Array()) ?? '').trimEnd() : null;
  return { operationId, size, root, checkpoints, key: line, openings };
}

async function notesOf(
  archive: Received,
  checkpoint: Uint8Array,
): Promise<(Evidence & { readonly statement: Uint8Array })[]> {
  const notes = [{ label: "the archive's checkpoint", outside: false, statement: checkpoint }];
  for (const name of archive.names.filter((each) => each.startsWith('checkpoints/'))) {
    const statement = await archive.whole(name);
    if (statement !== null) notes.push({ label: `the archive's ${name}`, outside: false, statement });
  }
  return notes;
}

async function openingsOf(
  archive: Received,
  sealed: ReadonlyMap<string, unknown>,
): Promise<{ openings: Map<string, Opening[]>; wrong: string[] }> {
  const openings = new Map<string, Opening[]>();
  const wrong: string[] = [];
  let number = 0;
  for await (const line of linesOf(archive.read('openings.ndjson'))) {
    number += 1;
    const read = opening.safeParse(parsed(line));
    const { recordId, path: pointer, value, salt: text } = read.success ? read.data : nothing;
    const salt = Buffer.from(text, 'base64');
    const steps = pointer.slice(1).split('/');
    const record = sealed.get(recordId);
    const bytes = Buffer.from(canonicalBytes(value ?? null));
    const seal = base64(createHash('sha256').update(salt).update(bytes).digest());
    const personId = at(record, [...steps.slice(0, -1), 'personId']);
    if (salt.length !== 32 || at(record, [...steps, 'sealed']) !== seal || typeof personId !== 'string') {
      wrong.push(`Line ${number} of openings.ndjson is not what was sealed.`);
      continue;
    }
    openings.set(recordId, [...(openings.get(recordId) ?? []), { pointer, personId, salt, value: bytes }]);
  }
  return { openings, wrong: wrong.slice(0, 20) };
}

const nothing = { recordId: '', path: '', value: null, salt: '' };

const at = (value: unknown, steps: readonly string[]): unknown =>
  steps.reduce<unknown>((inner, step) => memberOf(inner, step), value);

function parsed(bytes: Uint8Array | null): unknown {
  try {
    return JSON.parse(textOf(bytes ?? new Uint8Array()) ?? '');
  } catch {
    return undefined;
  }
}

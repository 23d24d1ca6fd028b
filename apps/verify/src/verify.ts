import { linesOf, LogVerifier, memberOf, NotReadable, parseVerifierKey, textOf } from '@furrowmark/log';
import type { Evidence, LogReport, VerifierKey } from '@furrowmark/log';
import { wholeFile } from './archive.ts';
import type { Archive } from './archive.ts';
import { Contents } from './contents.ts';
import type { DocumentReport, LateEntry, Restored, SealReport } from './contents.ts';

/** What the reader brings along: nothing of it may come from the archive. */
export interface Trust {
  /** Verifier keys from outside: the log's, witnesses'. */
  readonly keys: readonly VerifierKey[];
  /** Earlier checkpoints, printed sizes and roots, proof files. */
  readonly kept: readonly Evidence[];
  /** The reader's clock, milliseconds since 1970. */
  readonly now: number;
}

export interface ArchiveReport {
  readonly log: LogReport;
  /** Whether the reader brought a key by the name of this log. */
  readonly keyBrought: boolean;
  /** The key line that the archive presents. It proves nothing. */
  readonly presentedKey: string | null;
  /** Whether the archive says of itself that it holds a part of the log only. */
  readonly partial: boolean;
  readonly late: readonly LateEntry[];
  readonly restored: readonly Restored[];
  /** Null where there is no archive around the entries. */
  readonly seals: SealReport | null;
  readonly documents: DocumentReport | null;
}

/** Checks a whole archive: the log, what is sealed in it, the documents beside it. */
export async function verifyArchive(archive: Archive, trust: Trust): Promise<ArchiveReport> {
  if (!archive.files.has('entries.ndjson')) throw new NotReadable('the archive holds no entries.ndjson');
  const presentedKey = textOf((await wholeFile(archive, 'key')) ?? new Uint8Array(0));
  const evidence: Evidence[] = [];
  const checkpoint = await wholeFile(archive, 'checkpoint');
  // An archive without a checkpoint is one from which it was taken away: the empty one counts as damaged.
  evidence.push(presented("the archive's checkpoint", checkpoint ?? new Uint8Array(0)));
  for (const name of [...archive.files.keys()].filter((each) => each.startsWith('checkpoints/'))) {
    evidence.push(presented(`the archive's ${name}`, (await wholeFile(archive, name)) ?? new Uint8Array(0)));
  }
  const partial = await saysPartial(archive);
  const leafHashes = await wholeFile(archive, 'leaf-hashes');
  const contents = new Contents();
  const log = await verifyEntries(linesOf(archive.read('entries.ndjson')), trust, contents, {
    evidence,
    presentedKey,
    partial,
    ...(leafHashes === null ? {} : { leafHashes }),
  });
  const openings = archive.files.has('openings.ndjson') ? linesOf(archive.read('openings.ndjson')) : linesOf([]);
  const seals = await contents.checkSeals(openings);
  const documents = await contents.checkDocuments(documentsOf(archive));
  return { ...log, partial, late: contents.late, restored: contents.restored, seals, documents };
}

/** Checks entries by themselves, one canonical text a line, with the log's checkpoint where there is one. */
export async function verifyBare(
  entries: AsyncIterable<Uint8Array>,
  checkpoint: Uint8Array | null,
  trust: Trust,
): Promise<ArchiveReport> {
  const contents = new Contents();
  const evidence = checkpoint === null ? [] : [presented("the log's checkpoint", checkpoint)];
  const log = await verifyEntries(entries, trust, contents, { evidence, presentedKey: null, partial: false });
  return { ...log, partial: false, late: contents.late, restored: contents.restored, seals: null, documents: null };
}

async function verifyEntries(
  entries: AsyncIterable<Uint8Array>,
  { keys, kept, now }: Trust,
  contents: Contents,
  log: { evidence: Evidence[]; presentedKey: string | null; partial: boolean; leafHashes?: Uint8Array },
): Promise<Pick<ArchiveReport, 'log' | 'keyBrought' | 'presentedKey'>> {
  const own = parseVerifierKey(log.presentedKey ?? '');
  const { presentedKey, ...rest } = log;
  const verifier = new LogVerifier({
    ...rest,
    keys,
    ownKeys: own.ok ? [own.value] : [],
    evidence: [...log.evidence, ...kept],
    now,
  });
  for await (const entry of entries) {
    const read = verifier.add(entry);
    if (read !== null && read.envelope !== null) contents.take(entry, read.value, read.envelope);
  }
  const report = verifier.finish();
  const keyBrought = keys.some((key) => key.name === report.origin);
  return { log: report, keyBrought, presentedKey: own.ok ? presentedKey : null };
}

const presented = (label: string, statement: Uint8Array): Evidence => ({ label, outside: false, statement });

async function saysPartial(archive: Archive): Promise<boolean> {
  const manifest = await wholeFile(archive, 'manifest.json');
  try {
    const value: unknown = JSON.parse(textOf(manifest ?? new Uint8Array(0)) ?? '');
    return memberOf(value, 'partial') === true;
  } catch {
    return false;
  }
}

async function* documentsOf(archive: Archive): AsyncGenerator<{ name: string; body: AsyncIterable<Uint8Array> }> {
  for (const name of archive.files.keys()) {
    if (name.startsWith('documents/')) yield { name: name.slice('documents/'.length), body: archive.read(name) };
  }
}

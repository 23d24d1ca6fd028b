import type { LogReport } from '@furrowmark/log';

/** What came of checking an archive here. */
export type ArchiveCheck =
  | { readonly kind: 'checked'; readonly report: LogReport; readonly keyKnown: boolean }
  | { readonly kind: 'noArchive' | 'badKey' };

/** Files of an archive that are held whole: all but the entries and the documents. */
const small = 50 * 1024 * 1024;

/**
 * Checks a log's archive in this browser; nothing of it leaves the device and no service is asked. `key`: the verifier
 * key line that the reader holds from outside. Entries are read one by one; documents and sealed names are not looked at.
 */
export async function verifyArchive(
  file: Blob,
  key: string,
  progress: (entries: number) => void,
): Promise<ArchiveCheck> {
  const { linesOf, LogVerifier, NotReadable, parseVerifierKey, textOf, unpackTar } = await import('@furrowmark/log');
  const brought = key.trim() === '' ? null : parseVerifierKey(key.trim());
  if (brought?.ok === false) return { kind: 'badKey' };
  const whole = async (body: AsyncIterable<Uint8Array>): Promise<Uint8Array> => {
    const chunks: BlobPart[] = [];
    for await (const chunk of body) chunks.push(new Uint8Array(chunk));
    return new Uint8Array(await new Blob(chunks).arrayBuffer());
  };
  try {
    // The entries stand before some of what they are checked with: the archive is read twice.
    const beside = new Map<string, Uint8Array>();
    let hasEntries = false;
    for await (const { name, size, body } of unpackTar(chunksOf(file))) {
      if (name === 'entries.ndjson') hasEntries = true;
      else if (
        size <= small &&
        (['key', 'checkpoint', 'leaf-hashes'].includes(name) || name.startsWith('checkpoints/'))
      )
        beside.set(name, await whole(body));
    }
    if (!hasEntries) return { kind: 'noArchive' };
    const own = parseVerifierKey(textOf(beside.get('key') ?? new Uint8Array(0)) ?? '');
    const leafHashes = beside.get('leaf-hashes');
    const verifier = new LogVerifier({
      keys: brought === null ? [] : [brought.value],
      ownKeys: own.ok ? [own.value] : [],
      evidence: [
        ...new Set(['checkpoint', ...[...beside.keys()].filter((name) => name.startsWith('checkpoints/'))]),
      ].map((label) => ({ label, outside: false, statement: beside.get(label) ?? new Uint8Array(0) })),
      ...(leafHashes === undefined ? {} : { leafHashes }),
      now: Date.now(),
    });
    let read = 0;
    for await (const { name, body } of unpackTar(chunksOf(file))) {
      if (name !== 'entries.ndjson') continue;
      for await (const entry of linesOf(body)) {
        verifier.add(entry);
        read += 1;
        if (read % 1_000 === 0) progress(read);
      }
    }
    const report = verifier.finish();
    return { kind: 'checked', report, keyKnown: brought !== null && brought.value.name === report.origin };
  } catch (error) {
    if (error instanceof NotReadable) return { kind: 'noArchive' };
    throw error;
  }
}

async function* chunksOf(file: Blob): AsyncGenerator<Uint8Array> {
  const step = 1024 * 1024;
  for (let at = 0; at < file.size; at += step) yield new Uint8Array(await file.slice(at, at + step).arrayBuffer());
}

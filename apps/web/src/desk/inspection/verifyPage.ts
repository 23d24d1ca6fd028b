import { askFile } from '../../http/ask.ts';
import { session } from '../../session/session.ts';

/** What came of comparing a printed page with the log. */
export type PageCheck =
  | { readonly kind: 'matches' | 'altered' | 'tooShort'; readonly now: number }
  | { readonly kind: 'unreachable' }
  | { readonly kind: 'refused'; readonly said: string };

const atOnce = 1_000;

/**
 * Reads the log's entries, byte for byte, and works out here the root (RFC 9162) over as many as the page says; the
 * service's word is not taken for it. `progress` is told how many were read.
 */
export async function verifyPage(size: number, root: string, progress: (read: number) => void): Promise<PageCheck> {
  const { base64, leafHash, linesOfBytes, rootOf, TreeAppender, emptyFrontier } = await log();
  const tree = new TreeAppender(emptyFrontier);
  let [read, found]: [number, string | null] = [0, size === 0 ? base64(rootOf(emptyFrontier)) : null];
  for (;;) {
    const path = `/operations/${session.get()?.operationId ?? ''}/log/entries?from=${String(read)}&to=${String(read + atOnce)}`;
    const answer = await askFile(path, 'application/x-ndjson');
    // Beyond its end there is nothing to read.
    if (answer.kind === 'refused' && read > 0 && answer.status === 400) break;
    if (answer.kind === 'refused') return { kind: 'refused', said: answer.problem.detail };
    if (answer.kind !== 'file') return { kind: 'unreachable' };
    const entries = linesOfBytes(new Uint8Array(await answer.blob.arrayBuffer()));
    for (const entry of entries) {
      tree.append(leafHash(entry));
      read += 1;
      if (read === size) found = base64(rootOf(tree.frontier()));
    }
    progress(read);
    if (entries.length === 0) break;
  }
  if (found === null) return { kind: 'tooShort', now: read };
  return { kind: found === root.replaceAll(/\s/g, '') ? 'matches' : 'altered', now: read };
}

async function log() {
  const { base64, emptyFrontier, leafHash, rootOf, TreeAppender } = await import('@furrowmark/log');
  return { base64, emptyFrontier, leafHash, linesOfBytes, rootOf, TreeAppender };
}

/** The lines of NDJSON as bytes: canonical JSON has no line break inside. */
function linesOfBytes(bytes: Uint8Array): readonly Uint8Array[] {
  const lines: Uint8Array[] = [];
  let start = 0;
  for (let end = bytes.indexOf(10); end !== -1; end = bytes.indexOf(10, start)) {
    if (end > start) lines.push(bytes.subarray(start, end));
    start = end + 1;
  }
  if (start < bytes.length) lines.push(bytes.subarray(start));
  return lines;
}

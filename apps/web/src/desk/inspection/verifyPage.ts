import { ask, askFile } from '../../http/ask.ts';
import { textsOf } from '../../http/read.ts';
import { session } from '../../session/session.ts';
import { checkpointIn } from './scan.ts';

/** What came of comparing a printed page with the log. */
export type PageCheck =
  | { readonly kind: 'matches' | 'altered' | 'tooShort'; readonly now: number }
  /** By the service's proof: a reading link does not open every entry. */
  | { readonly kind: 'proven'; readonly now: number }
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
    // A link that reads a period does not open what lies outside; its hashes it does.
    if (answer.kind === 'refused' && answer.status === 403) return byProof(size, root);
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

/**
 * Whether the log as its signed checkpoint has it now begins with the page's: the path between the two roots is worked
 * through here (RFC 9162 §2.1.4.2). No entry is read.
 */
async function byProof(size: number, root: string): Promise<PageCheck> {
  const { fromBase64, verifyConsistency } = await import('@furrowmark/log');
  const base = `/operations/${session.get()?.operationId ?? ''}/log`;
  const signed = await askFile(`${base}/checkpoint`, 'text/plain');
  if (signed.kind === 'refused') return { kind: 'refused', said: signed.problem.detail };
  const now = signed.kind === 'file' ? checkpointIn(await signed.blob.text()) : null;
  if (now === null) return { kind: 'unreachable' };
  if (size > now.size) return { kind: 'tooShort', now: now.size };
  const answer = await ask(`${base}/proof/consistency?from=${String(size)}&to=${String(now.size)}`);
  if (answer.kind === 'refused') return { kind: 'refused', said: answer.problem.detail };
  if (answer.kind !== 'ok') return { kind: 'unreachable' };
  const hash = (text: string): Uint8Array => fromBase64(text.replaceAll(/\s/g, '')) ?? new Uint8Array();
  const path = textsOf(answer.body, 'path').map(hash);
  const shown = verifyConsistency(size, hash(root), now.size, hash(now.root), path);
  return { kind: shown ? 'proven' : 'altered', now: now.size };
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

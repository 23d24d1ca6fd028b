import { readFile } from 'node:fs/promises';
import { fromBase64, parseTlogProof, parseVerifierKey, textOf } from '@furrowmark/log';
import type { Evidence, Seen, VerifierKey } from '@furrowmark/log';

/** Reads a verifier key, given as a line or as the name of a file that holds it. */
export async function readKey(given: string): Promise<VerifierKey> {
  const line = parseVerifierKey(given);
  if (line.ok) return line.value;
  const key = parseVerifierKey((await readFile(given, 'utf8')).trimEnd());
  if (!key.ok) throw new Error(`${given}: ${key.why}`);
  return key.value;
}

/** Reads what the reader kept: a checkpoint file, a proof file, or SIZE:ROOT as printed. */
export async function readKept(what: string, dated: string | null): Promise<Evidence> {
  const seen = dated === null ? {} : { seen: seenOn(dated) };
  const printed = /^(0|[1-9][0-9]*):([A-Za-z0-9+/]{43}=)$/.exec(what);
  if (printed !== null) {
    const root = fromBase64(printed[2] ?? '');
    if (root === null) throw new Error(`${what}: the root is not the base64 of 32 bytes`);
    const size = Number(printed[1]);
    return { label: `the printed size ${size}`, outside: true, statement: { size, root }, ...seen };
  }
  const typed = /^\d+:(.*)$/.exec(what);
  if (typed !== null) {
    const signs = String(typed[1]?.length ?? 0);
    throw new Error(
      `${what}: typed wrongly. A root has 44 signs, letters, digits, + and /, the last of them =; here are ${signs}`,
    );
  }
  const bytes = await readFile(what);
  if (textOf(bytes)?.startsWith('c2sp.org/tlog-proof@') !== true) {
    return { label: what, outside: true, statement: bytes, ...seen };
  }
  const proof = parseTlogProof(bytes);
  if (!proof.ok) throw new Error(`${what}: ${proof.why}`);
  const { index, path, checkpoint } = proof.value;
  return { label: what, outside: true, statement: checkpoint, proof: { index, path }, ...seen };
}

/** A date or an instant as a range. A date is that day wherever on earth it was meant. */
export function seenOn(dated: string): Seen {
  const time = Date.parse(dated);
  if (Number.isNaN(time) || !/^\d{4}-\d{2}-\d{2}(T.*(Z|[+-]\d{2}:\d{2}))?$/.test(dated)) {
    throw new Error(`${dated} is neither a date (2026-06-03) nor an instant with its offset (2026-06-03T14:00:00Z)`);
  }
  if (dated.includes('T')) return { earliest: time, latest: time, words: dated };
  const hour = 3_600_000;
  // A day begins at UTC+14 and ends at UTC-12.
  return { earliest: time - 14 * hour, latest: time + 36 * hour, words: dated };
}

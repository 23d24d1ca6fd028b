import {
  equalBytes,
  openCheckpoint,
  parseCheckpointText,
  parseCanonical,
  parseNote,
  parseTlogProof,
  readEnvelope,
  originOf,
  verifyTlogProof,
} from '@furrowmark/log';
import type { Evidence } from '@furrowmark/log';
import type { Trust } from './verify.ts';
import { exitCodes } from './words.ts';

/** A finding in words, with the exit code. */
export interface Finding {
  readonly code: number;
  readonly lines: readonly string[];
}

/** Checks one entry's proof file. The entry's bytes are those given, else those that the file carries. */
export function verifyProofFile(file: Uint8Array, entry: Uint8Array | null, trust: Trust): Finding {
  const proof = parseTlogProof(file);
  if (!proof.ok) return { code: exitCodes.unreadable, lines: [proof.why] };
  const bytes = entry ?? proof.value.extra ?? null;
  if (bytes === null) {
    return { code: exitCodes.unreadable, lines: ['The proof file does not hold the entry: name it with --entry.'] };
  }
  if (trust.keys.length === 0) {
    return {
      code: exitCodes.unreadable,
      lines: ["A proof file can only be checked with the log's key: name it with --key."],
    };
  }
  const opened = verifyTlogProof(proof.value, bytes, trust.keys);
  if (!opened.ok) return { code: exitCodes.altered, lines: ['ALTERED', `  - ${opened.why}`] };
  const { checkpoint } = opened.value;
  const parsed = parseCanonical(bytes);
  const envelope = parsed === null ? null : readEnvelope(parsed.value);
  if (envelope?.ok !== true)
    return { code: exitCodes.altered, lines: ['ALTERED', '  - the entry is not one of a record log'] };
  const { seq, operationId } = envelope.value;
  if (seq !== proof.value.index || originOf(operationId) !== checkpoint.origin) {
    return { code: exitCodes.altered, lines: ['ALTERED', '  - the entry names another place or another log'] };
  }
  return {
    code: exitCodes.genuine,
    lines: [
      `Log: ${checkpoint.origin}`,
      `GENUINE: entry ${seq} was in the log when it had ${checkpoint.size} entries, signed by the key that you brought.`,
      'Whether the log still has it: check the log with this file as --against.',
    ],
  };
}

/** Checks a checkpoint by itself against those kept: its signature, and that no two of one size differ. */
export function verifyCheckpointFile(note: Uint8Array, { keys, kept }: Trust): Finding {
  const form = parseNote(note);
  const read = form.ok ? parseCheckpointText(form.value.text) : form;
  if (!read.ok) return { code: exitCodes.unreadable, lines: [read.why] };
  const { origin, size, root } = read.value;
  const lines = [`Log: ${origin}`, `Checkpoint of ${size} entries`];
  const opened = openCheckpoint(note, keys);
  if (keys.length > 0 && !opened.ok) return { code: exitCodes.altered, lines: [...lines, `ALTERED: ${opened.why}`] };
  lines.push(
    opened.ok ? 'The signature is by a key that you brought.' : 'No key was brought (--key): who signed is not known.',
  );
  for (const each of kept) {
    const other = statementOf(each);
    if (other === null || (other.origin !== null && other.origin !== origin)) {
      return { code: exitCodes.altered, lines: [...lines, `${each.label} is not a checkpoint of this log.`] };
    }
    if (other.size === size && !equalBytes(other.root, root)) {
      const what = `ALTERED: ${each.label} has the same size and another root. If both are signed by the log, they prove together that it was shown in two versions.`;
      return { code: exitCodes.altered, lines: [...lines, what] };
    }
    lines.push(
      other.size === size
        ? `${each.label} agrees.`
        : `${each.label} has ${other.size} entries: whether one log grew into the other can only be told with the entries.`,
    );
  }
  const witnessed = kept.some((each) => statementOf(each)?.size === size);
  return { code: witnessed ? exitCodes.genuine : exitCodes.notWitnessed, lines };
}

function statementOf({ statement }: Evidence): { origin: string | null; size: number; root: Uint8Array } | null {
  if (typeof statement !== 'string' && !(statement instanceof Uint8Array)) return { origin: null, ...statement };
  const note = parseNote(statement);
  const read = note.ok ? parseCheckpointText(note.value.text) : note;
  return read.ok ? read.value : null;
}

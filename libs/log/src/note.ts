import { base64, concatBytes, fromBase64, hex, textOf, utf8 } from './bytes.ts';
import { bad, good } from './checked.ts';
import type { Checked } from './checked.ts';
import { cosignatureTime, cosignedMessage } from './cosignature.ts';
import { isKeyName, verifySignature } from './key.ts';
import type { Signer, VerifierKey } from './key.ts';

/*
 * A C2SP signed note (https://c2sp.org/signed-note):
 *
 *   text, ending in a line feed
 *   (blank line)
 *   — <key name> <base64(key ID || signature)>      one line or more; U+2014
 *
 * Signed are the bytes of the text, its last line feed included, the blank line excluded.
 */

/** At most so many signature lines are read (the specification asks for at least 16). */
const mostSignatures = 100;

/** One signature line, unchecked. */
export interface NoteSignature {
  readonly name: string;
  /** Eight lower-case hexadecimal digits. */
  readonly keyId: string;
  /** What follows the key ID. */
  readonly signature: Uint8Array;
}

/** A note as read: nothing is checked but its form. */
export interface Note {
  readonly text: string;
  readonly signatures: readonly NoteSignature[];
}

/** A signature that verified, and, where the key is a witness's, the time that it signed. */
export interface VerifiedSignature {
  readonly key: VerifierKey;
  /** Seconds since 1970-01-01T00:00:00Z. */
  readonly time?: number;
}

/** A note at least one of whose signatures verified. */
export interface OpenedNote {
  readonly text: string;
  readonly verified: readonly VerifiedSignature[];
  /** Signatures by keys that were not given. They say nothing. */
  readonly unknown: readonly NoteSignature[];
}

/** Reads a note without checking signatures. */
export function parseNote(note: Uint8Array | string): Checked<Note> {
  const all = typeof note === 'string' ? (note.isWellFormed() ? note : null) : textOf(note);
  if (all === null) return bad('the note is not valid UTF-8');
  if (/[\u0000-\u0009\u000b-\u001f]/.test(all)) return bad('the note holds control characters');
  const blank = all.lastIndexOf('\n\n');
  if (blank < 0) return bad('the note has no blank line before its signatures');
  const lines = all.slice(blank + 2).split('\n');
  if (lines.pop() !== '' || lines.length === 0) return bad('the note has no complete signature line');
  if (lines.length > mostSignatures) return bad(`the note has more than ${mostSignatures} signatures`);
  const signatures: NoteSignature[] = [];
  for (const line of lines) {
    const [dash, name, encoded, ...more] = line.split(' ');
    const bytes = fromBase64(encoded ?? '');
    if (
      dash !== '—' ||
      name === undefined ||
      !isKeyName(name) ||
      bytes === null ||
      bytes.length < 5 ||
      more.length > 0
    ) {
      return bad('a signature line of the note is malformed');
    }
    signatures.push({ name, keyId: hex(bytes.subarray(0, 4)), signature: bytes.subarray(4) });
  }
  return good({ text: all.slice(0, blank + 1), signatures });
}

/**
 * Checks a note with the keys that the reader trusts. Refused where a signature by one of these keys fails, or where
 * none of the signatures is by one of them; signatures by other keys are ignored, but named.
 */
export function openNote(note: Uint8Array | string, keys: readonly VerifierKey[]): Checked<OpenedNote> {
  const read = parseNote(note);
  if (!read.ok) return read;
  const verified: VerifiedSignature[] = [];
  const unknown: NoteSignature[] = [];
  for (const signature of read.value.signatures) {
    const candidates = keys.filter((key) => key.name === signature.name && key.keyId === signature.keyId);
    if (candidates.length === 0) {
      unknown.push(signature);
      continue;
    }
    const signed = candidates
      .map((key) => checkSignature(read.value.text, signature, key))
      .find((found) => found !== null);
    if (signed === undefined) return bad(`the signature of ${signature.name} does not fit the text`);
    verified.push(signed);
  }
  if (verified.length === 0) return bad('no signature is by a trusted key');
  return good({ text: read.value.text, verified, unknown });
}

function checkSignature(text: string, { signature }: NoteSignature, key: VerifierKey): VerifiedSignature | null {
  if (key.type === 'ed25519') return verifySignature(key.publicKey, utf8(text), signature) ? { key } : null;
  const time = cosignatureTime(signature);
  if (time === null) return null;
  return verifySignature(key.publicKey, cosignedMessage(text, time), signature.subarray(8)) ? { key, time } : null;
}

/**
 * The signed note of a text. Throws RangeError where the text cannot be one: it must end in a line feed and hold no
 * other control characters.
 */
export function signNote(text: string, signers: readonly Signer[]): string {
  const lines = signers.map(({ key, sign }) => {
    const keyId = Uint8Array.from(key.keyId.match(/../g) ?? [], (pair) => parseInt(pair, 16));
    return `— ${key.name} ${base64(concatBytes(keyId, sign(utf8(text))))}\n`;
  });
  const note = `${text}\n${lines.join('')}`;
  const read = parseNote(note);
  if (!text.endsWith('\n') || !read.ok || read.value.text !== text) {
    throw new RangeError(read.ok ? 'the text must end in a line feed' : read.why);
  }
  return note;
}

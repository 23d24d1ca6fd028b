import { ed25519 } from '@noble/curves/ed25519.js';
import { sha256 } from '#sha256';
import { base64, concatBytes, fromBase64, hex, utf8 } from './bytes.ts';
import { bad, good } from './checked.ts';
import type { Checked } from './checked.ts';

/*
 * Keys of C2SP signed notes (https://c2sp.org/signed-note):
 *
 *   key ID        SHA-256(name || 0x0A || type || public key)[:4]
 *   verifier key  name "+" lower-case hex key ID "+" base64(type || public key)
 *   types         0x01 Ed25519 (RFC 8032); 0x04 Ed25519 with a signed time (https://c2sp.org/tlog-cosignature)
 *
 * The four-byte key ID finds a key; it does not protect one. Trust the whole verifier key, from outside the log.
 */

const typeByte = { ed25519: 0x01, cosignature: 0x04 } as const;

/** What checks a signature: a public key under a name. `cosignature` keys are witnesses', who sign a time as well. */
export interface VerifierKey {
  readonly name: string;
  readonly type: keyof typeof typeByte;
  /** Eight lower-case hexadecimal digits. */
  readonly keyId: string;
  /** 32 bytes. */
  readonly publicKey: Uint8Array;
}

/** What makes a signature. */
export interface Signer {
  readonly key: VerifierKey;
  sign(message: Uint8Array): Uint8Array;
}

/** A key name is not empty and holds neither white space nor a plus sign. */
export function isKeyName(name: string): boolean {
  return name !== '' && name.isWellFormed() && !/[\s\u0085+]/u.test(name);
}

/**
 * The verifier key of a public key. Refuses a public key that is no point of the curve in its one proper encoding, or
 * a point of small order: under such a key anyone can sign anything (the all-zero signature verifies).
 */
export function verifierKey(
  name: string,
  publicKey: Uint8Array,
  type: VerifierKey['type'] = 'ed25519',
): Checked<VerifierKey> {
  if (!isKeyName(name)) return bad('a key name must not be empty and must hold neither white space nor a plus sign');
  if (!isStrongPublicKey(publicKey)) return bad('the public key is not a usable Ed25519 key');
  return good({ name, type, keyId: keyIdOf(name, typeByte[type], publicKey), publicKey });
}

/** Reads a verifier key line. A trailing line end is allowed, as files have one. */
export function parseVerifierKey(text: string): Checked<VerifierKey> {
  // At the first two plus signs: base64 may hold further ones.
  const parts = /^([^+]*)\+([0-9a-f]{8})\+(.*)\n?$/.exec(text);
  const [name, keyId, encoded] = [parts?.[1], parts?.[2], parts?.[3]];
  if (name === undefined || keyId === undefined || encoded === undefined) return bad('not a verifier key line');
  const bytes = fromBase64(encoded);
  if (bytes === null) return bad('the verifier key is not proper base64');
  const type = bytes[0] === typeByte.ed25519 ? 'ed25519' : bytes[0] === typeByte.cosignature ? 'cosignature' : null;
  if (type === null) return bad('the verifier key is of a kind other than Ed25519');
  const key = verifierKey(name, bytes.subarray(1), type);
  if (key.ok && key.value.keyId !== keyId) return bad('the key ID does not belong to this name and key');
  return key;
}

/** The verifier key line: hand it out, print it, pin it. Without a line end. */
export function verifierKeyText(key: VerifierKey): string {
  return `${key.name}+${key.keyId}+${base64(Uint8Array.of(typeByte[key.type], ...key.publicKey))}`;
}

/**
 * The signer of a name from its secret seed: 32 bytes from a good random source, kept secret. The same seed gives the
 * same key, and the same text the same signature (RFC 8032 section 5.1.6). Throws RangeError for a bad name or seed.
 */
export function signerFromSeed(name: string, seed: Uint8Array): Signer {
  if (seed.length !== 32) throw new RangeError('an Ed25519 seed has 32 bytes');
  const secret = Uint8Array.from(seed);
  const key = verifierKey(name, ed25519.getPublicKey(secret));
  if (!key.ok) throw new RangeError(key.why);
  return { key: key.value, sign: (message) => ed25519.sign(message, secret) };
}

/** Strict RFC 8032 verification: proper encodings only, S below the group order, no small-order key. Never throws. */
export function verifySignature(publicKey: Uint8Array, message: Uint8Array, signature: Uint8Array): boolean {
  if (signature.length !== 64 || !isStrongPublicKey(publicKey)) return false;
  return ed25519.verify(signature, message, publicKey, { zip215: false });
}

function isStrongPublicKey(publicKey: Uint8Array): boolean {
  if (publicKey.length !== 32) return false;
  try {
    return !ed25519.Point.fromBytes(publicKey, false).isSmallOrder();
  } catch {
    return false;
  }
}

function keyIdOf(name: string, type: number, publicKey: Uint8Array): string {
  return hex(sha256(concatBytes(utf8(name), Uint8Array.of(0x0a, type), publicKey)).subarray(0, 4));
}

import { sha256 as digest } from '@noble/hashes/sha2.js';

/** SHA-256 (FIPS 180-4) of the bytes: 32 bytes. Synchronous, which the browser's own digest is not. */
export function sha256(bytes: Uint8Array): Uint8Array {
  return digest(bytes);
}

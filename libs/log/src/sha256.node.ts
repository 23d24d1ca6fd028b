import { hash } from 'node:crypto';

/** SHA-256 (FIPS 180-4) of the bytes: 32 bytes. */
export function sha256(bytes: Uint8Array): Uint8Array {
  return hash('sha256', bytes, 'buffer');
}

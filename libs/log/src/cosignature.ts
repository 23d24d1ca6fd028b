import { utf8 } from './bytes.ts';

/*
 * C2SP tlog-cosignature (https://c2sp.org/tlog-cosignature), Ed25519: a witness's signature over a checkpoint together
 * with the time at which it saw it:
 *
 *   signature   big-endian uint64 time || 64 bytes
 *   message     "cosignature/v1" LF "time " decimal time LF, then the checkpoint's text
 *
 * Such a time comes from outside the log: no clock of the log's owner can move it.
 */

/** The time (seconds since 1970) that a cosignature claims, or null where the bytes are none. */
export function cosignatureTime(signature: Uint8Array): number | null {
  if (signature.length !== 8 + 64) return null;
  const time = new DataView(signature.buffer, signature.byteOffset, 8).getBigUint64(0);
  return time <= BigInt(Number.MAX_SAFE_INTEGER) ? Number(time) : null;
}

/** The bytes that a witness signs for a checkpoint's text at a time in seconds since 1970. */
export function cosignedMessage(checkpointText: string, time: number): Uint8Array {
  return utf8(`cosignature/v1\ntime ${time}\n${checkpointText}`);
}

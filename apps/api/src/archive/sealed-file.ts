import { createCipheriv, createDecipheriv, randomBytes, scrypt } from 'node:crypto';
import { NotReadable } from '@furrowmark/log';

/*
 * A file under a passphrase, in a stream: nothing is given out that was not authenticated, and a file cut short is noticed.
 *
 *   "furrowmark-sealed-1\n" (20 bytes) || salt (16) || nonce prefix (7)
 *   then pieces of 64 KiB (the last one shorter, or empty), each followed by its tag (16)
 *
 *   key    scrypt (RFC 7914), N = 2^17, r = 8, p = 1, 32 bytes
 *   piece  AES-256-GCM (NIST SP 800-38D); nonce = prefix || number of the piece (4 bytes, big-endian) || 1 for the last, else 0;
 *          the STREAM construction (Hoang, Reyhanitabar, Rogaway, Vizár 2015). The header is additional data of every piece.
 */
const magic = Buffer.from('furrowmark-sealed-1\n');
const headerLength = magic.length + 16 + 7;
const piece = 64 * 1024;
const tagLength = 16;

/** The passphrase does not open the file, or the file was changed or cut short. */
export class DoesNotOpen extends Error {
  override readonly name = 'DoesNotOpen';
}

export const isSealed = (start: Uint8Array): boolean => magic.equals(start.subarray(0, magic.length));

/** Encrypts a stream under a passphrase. */
export async function* sealed(source: AsyncIterable<Uint8Array>, passphrase: string): AsyncGenerator<Uint8Array> {
  const header = Buffer.concat([magic, randomBytes(16), randomBytes(7)]);
  const key = await keyOf(passphrase, header);
  yield header;
  let number = 0;
  for await (const { bytes, last } of pieces(source, piece)) {
    const cipher = createCipheriv('aes-256-gcm', key, nonce(header, number, last)).setAAD(header);
    yield Buffer.concat([cipher.update(bytes), cipher.final(), cipher.getAuthTag()]);
    number += 1;
  }
}

/** Decrypts what {@link sealed} wrote. Rejects with {@link DoesNotOpen}. */
export async function* unsealedFile(source: AsyncIterable<Uint8Array>, passphrase: string): AsyncGenerator<Uint8Array> {
  const iterator = source[Symbol.asyncIterator]();
  let start = Buffer.alloc(0);
  while (start.length < headerLength) {
    const next = await iterator.next();
    if (next.done === true) throw new NotReadable('the file ends within its first bytes');
    start = Buffer.concat([start, next.value]);
  }
  const header = start.subarray(0, headerLength);
  if (!isSealed(header)) throw new NotReadable('the file is not one under a passphrase');
  const key = await keyOf(passphrase, header);
  async function* rest(): AsyncGenerator<Uint8Array> {
    yield start.subarray(headerLength);
    for (let next = await iterator.next(); next.done !== true; next = await iterator.next()) yield next.value;
  }
  let number = 0;
  for await (const { bytes, last } of pieces(rest(), piece + tagLength)) {
    yield opened(header, key, number, last, bytes);
    number += 1;
  }
}

function opened(header: Buffer, key: Buffer, number: number, last: boolean, bytes: Buffer): Buffer {
  try {
    const decipher = createDecipheriv('aes-256-gcm', key, nonce(header, number, last)).setAAD(header);
    decipher.setAuthTag(bytes.subarray(bytes.length - tagLength));
    return Buffer.concat([decipher.update(bytes.subarray(0, bytes.length - tagLength)), decipher.final()]);
  } catch {
    throw new DoesNotOpen(number === 0 ? 'the passphrase does not open the file' : 'the file was changed or cut short');
  }
}

function nonce(header: Buffer, number: number, last: boolean): Buffer {
  const counter = Buffer.alloc(5);
  counter.writeUInt32BE(number, 0);
  counter[4] = last ? 1 : 0;
  return Buffer.concat([header.subarray(headerLength - 7), counter]);
}

function keyOf(passphrase: string, header: Buffer): Promise<Buffer> {
  const salt = header.subarray(magic.length, magic.length + 16);
  return new Promise((done, fail) =>
    scrypt(passphrase.normalize('NFC'), salt, 32, { N: 2 ** 17, r: 8, p: 1, maxmem: 2 ** 28 }, (error, key) =>
      error === null ? done(key) : fail(error),
    ),
  );
}

/** The stream in pieces of so many bytes, the last of which is told apart; an empty stream is one empty last piece. */
async function* pieces(
  source: AsyncIterable<Uint8Array>,
  length: number,
): AsyncGenerator<{ bytes: Buffer; last: boolean }> {
  let waiting = Buffer.alloc(0);
  for await (const chunk of source) {
    waiting = Buffer.concat([waiting, chunk]);
    while (waiting.length > length) {
      yield { bytes: waiting.subarray(0, length), last: false };
      waiting = waiting.subarray(length);
    }
  }
  yield { bytes: waiting, last: true };
}

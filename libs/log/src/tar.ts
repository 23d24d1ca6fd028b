import { concatBytes, textOf, utf8 } from './bytes.ts';

/*
 * POSIX ustar (IEEE Std 1003.1, pax, "ustar Interchange Format"), the part that an archive needs: plain files with
 * names of at most 100 bytes. Ordinary tools read it. Blocks of 512 bytes: a header, the content padded with zeros,
 * at the end two blocks of zeros.
 */

const block = 512;

/** A file to be packed. The size must be known before the content is read. */
export interface FileToPack {
  readonly name: string;
  readonly size: number;
  readonly body: Uint8Array | Iterable<Uint8Array> | AsyncIterable<Uint8Array>;
}

/** A file found in an archive. Read `body` before asking for the next file; what is left of it is passed over. */
export interface PackedFile {
  readonly name: string;
  readonly size: number;
  /** Where the content begins, in bytes from the start of the archive. */
  readonly offset: number;
  readonly body: AsyncIterable<Uint8Array>;
}

/** The archive is damaged, or of a kind that is not read here. */
export class NotReadable extends Error {
  override readonly name = 'NotReadable';
}

/**
 * The bytes of an archive. `modifiedAt` (seconds since 1970) goes into every header, so that equal files give equal
 * archives. Throws RangeError for a name or a size that does not fit, or content that is not of the size named.
 */
export async function* packTar(
  files: Iterable<FileToPack> | AsyncIterable<FileToPack>,
  modifiedAt = 0,
): AsyncGenerator<Uint8Array> {
  for await (const { name, size, body } of files) {
    yield header(name, size, modifiedAt);
    let written = 0;
    for await (const chunk of body instanceof Uint8Array ? [body] : body) {
      written += chunk.length;
      yield chunk;
    }
    if (written !== size) throw new RangeError(`${name} has ${written} bytes, not ${size}`);
    yield new Uint8Array(padding(size));
  }
  yield new Uint8Array(2 * block);
}

const padding = (size: number): number => (block - (size % block)) % block;

function header(name: string, size: number, modifiedAt: number): Uint8Array {
  const nameBytes = utf8(name);
  if (name === '' || nameBytes.length > 100) throw new RangeError(`the name ${name} does not fit an archive`);
  if (!Number.isSafeInteger(size) || size < 0 || size >= 8 ** 11)
    throw new RangeError(`${name} does not fit an archive`);
  const bytes = new Uint8Array(block);
  const octal = (at: number, digits: number, value: number): void =>
    bytes.set(utf8(value.toString(8).padStart(digits, '0')), at);
  bytes.set(nameBytes, 0);
  octal(100, 7, 0o644);
  octal(108, 7, 0);
  octal(116, 7, 0);
  octal(124, 11, size);
  octal(136, 11, modifiedAt);
  bytes.set(utf8('0'), 156);
  bytes.set(utf8('ustar\u000000'), 257);
  octal(148, 6, checksum(bytes));
  bytes.set([0, 0x20], 154);
  return bytes;
}

/** The sum of the header's bytes, its own eight taken as spaces. */
function checksum(header: Uint8Array): number {
  return header.reduce((sum, byte, i) => sum + (i >= 148 && i < 156 ? 0x20 : byte), 0);
}

/**
 * The files of an archive, in order. Directories are passed over, a leading `./` is dropped. Throws NotReadable for
 * damage, for links and other special files, for names that would lead out of the archive, and for what programs read
 * differently: what is checked here must be what another program unpacks.
 */
export async function* unpackTar(chunks: Iterable<Uint8Array> | AsyncIterable<Uint8Array>): AsyncGenerator<PackedFile> {
  const reader = new BlockReader(chunks);
  for (;;) {
    const head = await reader.exactly(block);
    if (head === null) throw new NotReadable('the archive ends before its closing blocks');
    if (isZero(head)) return reader.nothingFollows();
    const { name, size, kind } = readHeader(head);
    const end = reader.position + size;
    if (kind === 'file') yield { name, size, offset: reader.position, body: reader.upTo(end) };
    await reader.pass(end + padding(size));
  }
}

const isZero = (bytes: Uint8Array): boolean => bytes.every((byte) => byte === 0);

function readHeader(head: Uint8Array): { name: string; size: number; kind: 'file' | 'directory' } {
  const field = (at: number, length: number): string => {
    const bytes = head.subarray(at, at + length);
    const zero = bytes.indexOf(0);
    const text = textOf(zero < 0 ? bytes : bytes.subarray(0, zero));
    if (text === null) throw new NotReadable('a header of the archive is not text');
    return text;
  };
  const octal = (at: number, length: number): number => {
    const digits = field(at, length).trim();
    if (!/^[0-7]+$/.test(digits)) throw new NotReadable('a number in a header of the archive is damaged');
    return parseInt(digits, 8);
  };
  if (octal(148, 8) !== checksum(head)) throw new NotReadable('a header of the archive is damaged');
  // "ustar\0" is POSIX; GNU tar writes "ustar " and keeps other things where POSIX has a name's beginning, and before
  // POSIX there was no such place.
  const prefix = textOf(head.subarray(257, 263)) === 'ustar\u0000' ? field(345, 155) : '';
  const name = `${prefix === '' ? '' : `${prefix}/`}${field(0, 100)}`.replace(/^(\.\/)+/, '');
  const kind = head[156] === 0x30 || head[156] === 0 ? 'file' : head[156] === 0x35 ? 'directory' : null;
  if (kind === null) throw new NotReadable(`${name} is neither a file nor a directory`);
  if (name.startsWith('/') || name.split('/').includes('..')) throw new NotReadable(`${name} leads out of the archive`);
  const size = octal(124, 12);
  if (kind === 'directory' && size !== 0) throw new NotReadable(`${name} is a directory with content`);
  if (kind === 'file' && name.split('/').some((step) => step === '' || step === '.'))
    throw new NotReadable(`${name} is no name that every program reads alike`);
  return { name, size, kind };
}

/** Cuts a stream of chunks where the archive's structure wants it. */
class BlockReader {
  position = 0;
  #rest: Uint8Array = new Uint8Array(0);
  readonly #chunks: AsyncIterator<Uint8Array> | Iterator<Uint8Array>;

  constructor(chunks: Iterable<Uint8Array> | AsyncIterable<Uint8Array>) {
    this.#chunks = Symbol.asyncIterator in chunks ? chunks[Symbol.asyncIterator]() : chunks[Symbol.iterator]();
  }

  /** Up to `most` bytes, or null at the end of the stream. */
  async #some(most: number): Promise<Uint8Array | null> {
    while (this.#rest.length === 0) {
      const next = await this.#chunks.next();
      if (next.done === true) return null;
      this.#rest = next.value;
    }
    const taken = this.#rest.subarray(0, most);
    this.#rest = this.#rest.subarray(taken.length);
    this.position += taken.length;
    return taken;
  }

  /** Exactly so many bytes, or null where the stream ends before the first of them. */
  async exactly(length: number): Promise<Uint8Array | null> {
    const parts: Uint8Array[] = [];
    for (let have = 0; have < length;) {
      const part = await this.#some(length - have);
      if (part === null) {
        if (have === 0) return null;
        throw new NotReadable('the archive ends within a block');
      }
      parts.push(part);
      have += part.length;
    }
    return concatBytes(...parts);
  }

  async *upTo(end: number): AsyncGenerator<Uint8Array> {
    while (this.position < end) {
      const part = await this.#some(end - this.position);
      if (part === null) throw new NotReadable('the archive ends within a file');
      yield part;
    }
  }

  /** Reads on to the end of the stream: behind the closing blocks there are zeros at most. */
  async nothingFollows(): Promise<void> {
    for (let rest = await this.#some(Infinity); rest !== null; rest = await this.#some(Infinity)) {
      if (!isZero(rest)) throw new NotReadable('something follows the closing blocks of the archive');
    }
  }

  async pass(end: number): Promise<void> {
    const rest = this.upTo(end);
    while ((await rest.next()).done !== true);
  }
}

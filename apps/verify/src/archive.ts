import { createReadStream } from 'node:fs';
import { open, readdir, stat } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';
import { NotReadable, unpackTar } from '@furrowmark/log';

/** The files of an archive, packed or unpacked. */
export interface Archive {
  /** Every file's name, with slashes, and its size in bytes. */
  readonly files: ReadonlyMap<string, number>;
  read(name: string): AsyncIterable<Uint8Array>;
}

/** Opens a directory into which an archive was unpacked. */
export async function openDirectory(path: string): Promise<Archive> {
  const files = new Map<string, number>();
  for (const entry of await readdir(path, { recursive: true, withFileTypes: true })) {
    if (entry.isDirectory()) continue;
    const full = join(entry.parentPath, entry.name);
    const name = relative(path, full).split(sep).join('/');
    // A link could show the reader another file than the one that was handed over.
    if (!entry.isFile()) throw new NotReadable(`${name} is neither a file nor a directory`);
    files.set(name, (await stat(full)).size);
  }
  return { files, read: (name) => createReadStream(join(path, name)) };
}

/** Opens a packed archive (ustar). It is read once to find where each file lies. */
export async function openTar(path: string): Promise<Archive> {
  const files = new Map<string, number>();
  const offsets = new Map<string, number>();
  for await (const { name, size, offset } of unpackTar(createReadStream(path))) {
    if (files.has(name)) throw new NotReadable(`${name} is in the archive twice`);
    files.set(name, size);
    offsets.set(name, offset);
  }
  const read = (name: string): AsyncIterable<Uint8Array> => {
    const [start, size] = [offsets.get(name) ?? 0, files.get(name) ?? 0];
    return size === 0 ? nothing() : createReadStream(path, { start, end: start + size - 1 });
  };
  return { files, read };
}

/** A whole small file, or null where the archive has none of this name. */
export async function wholeFile(archive: Archive, name: string): Promise<Uint8Array | null> {
  if (!archive.files.has(name)) return null;
  const chunks: Uint8Array[] = [];
  for await (const chunk of archive.read(name)) chunks.push(chunk);
  return Buffer.concat(chunks);
}

/** The first bytes of a file, from which its kind can be told. */
export async function firstBytes(path: string, length: number): Promise<Uint8Array> {
  const file = await open(path);
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(length), 0, length, 0);
    return buffer.subarray(0, bytesRead);
  } finally {
    await file.close();
  }
}

async function* nothing(): AsyncGenerator<Uint8Array> {}

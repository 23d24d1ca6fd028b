import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { concatBytes, textOf, utf8 } from './bytes.ts';
import { linesOf } from './lines.ts';
import { NotReadable, packTar, unpackTar } from './tar.ts';
import type { FileToPack } from './tar.ts';

async function packed(files: readonly FileToPack[], modifiedAt?: number): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  for await (const chunk of packTar(files, modifiedAt)) chunks.push(chunk);
  return concatBytes(...chunks);
}

const cut = (bytes: Uint8Array, length: number): Uint8Array[] =>
  Array.from({ length: Math.ceil(bytes.length / length) }, (_, i) => bytes.subarray(i * length, (i + 1) * length));

async function unpacked(
  chunks: Iterable<Uint8Array>,
): Promise<{ name: string; content: Uint8Array; offset: number }[]> {
  const files = [];
  for await (const { name, offset, body } of unpackTar(chunks)) {
    const parts: Uint8Array[] = [];
    for await (const part of body) parts.push(part);
    files.push({ name, offset, content: concatBytes(...parts) });
  }
  return files;
}

/** With the first header's checksum put right: the sum of its bytes, the checksum's own taken as spaces. */
function checksummed(archive: Uint8Array): Uint8Array {
  archive.set(utf8(' '.repeat(8)), 148);
  const sum = archive.subarray(0, 512).reduce((a, b) => a + b, 0);
  archive.set(utf8(`${sum.toString(8).padStart(6, '0')}\u0000 `), 148);
  return archive;
}

const file = (name: string, body: Uint8Array): FileToPack => ({ name, size: body.length, body });

describe('archives (POSIX ustar)', () => {
  it('round-trip any files, however the bytes arrive', async () => {
    const files = fc.array(
      fc.tuple(fc.stringMatching(/^[a-z0-9]{1,20}(\/[a-z0-9]{1,20})?$/), fc.uint8Array({ maxLength: 1500 })),
    );
    await fc.assert(
      fc.asyncProperty(files, fc.integer({ min: 1, max: 2000 }), async (given, length) => {
        const bytes = await packed(given.map(([name, body]) => file(name, body)));
        expect(bytes.length % 512).toBe(0);
        const back = await unpacked(cut(bytes, length));
        expect(back.map(({ name }) => name)).toEqual(given.map(([name]) => name));
        back.forEach(({ content, offset }, i) => {
          expect(content).toEqual(Uint8Array.from(given[i]?.[1] ?? []));
          expect(bytes.subarray(offset, offset + content.length)).toEqual(content);
        });
      }),
      { numRuns: 50 },
    );
  });

  it('passes over the files that the reader does not read', async () => {
    const bytes = await packed([file('a', new Uint8Array(700)), file('b', utf8('x'))]);
    const names: string[] = [];
    for await (const { name } of unpackTar(cut(bytes, 100))) names.push(name);
    expect(names).toEqual(['a', 'b']);
  });

  it('is what the ordinary tar lists: names, sizes, dates', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'tar-'));
    try {
      const name = `documents/${'0f'.repeat(32)}`;
      writeFileSync(
        join(folder, 'a.tar'),
        await packed([file(name, utf8('hello')), file('b', new Uint8Array(600))], 86_400),
      );
      const listed = execFileSync('tar', ['--utc', '-tvf', join(folder, 'a.tar')], { encoding: 'utf8' });
      expect(listed).toMatch(new RegExp(`^-rw-r--r-- 0/0 +5 1970-01-02 00:00 ${name}$`, 'm'));
      execFileSync('tar', ['-xf', join(folder, 'a.tar'), '-C', folder]);
      expect(readFileSync(join(folder, name), 'utf8')).toBe('hello');
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });

  it('refuses what would not fit a header, and content of another size than named', async () => {
    await expect(packed([file('', utf8('x'))])).rejects.toThrow(RangeError);
    await expect(packed([file('x'.repeat(101), utf8('x'))])).rejects.toThrow(RangeError);
    await expect(packed([{ name: 'x', size: 8 ** 11, body: utf8('x') }])).rejects.toThrow(RangeError);
    await expect(packed([{ name: 'x', size: 2, body: utf8('x') }])).rejects.toThrow(RangeError);
  });

  it('refuses damage, links, names that lead out', async () => {
    const bytes = await packed([file('some/file', utf8('content'))]);
    /** Rewrites a header and its checksum. */
    const withHeader = (at: number, text: string): Uint8Array => {
      const copy = Uint8Array.from(bytes);
      copy.set(utf8(text), at);
      return checksummed(copy);
    };
    expect(await unpacked([withHeader(0, 'more')])).toHaveLength(1);
    for (const wrong of [
      bytes.map((byte, i) => (i === 3 ? byte ^ 1 : byte)),
      bytes.subarray(0, 600),
      bytes.subarray(0, 100),
      bytes.subarray(0, 1024),
      withHeader(156, '2'),
      withHeader(156, 'x'),
      withHeader(0, '/etc'),
      withHeader(0, 'so/../x'),
      withHeader(124, '9'),
      // What other programs would read otherwise than this one: a file that is shown here and another that is unpacked there.
      withHeader(0, 'so//x\u0000'),
      withHeader(0, 'so/./x\u0000'),
      withHeader(0, 'so/x/\u0000'),
      withHeader(345, 'a/.\u0000'),
      withHeader(156, '5'),
      concatBytes(bytes, bytes),
      concatBytes(bytes.subarray(0, 1024), new Uint8Array(512), bytes),
      concatBytes(bytes, utf8('x')),
    ]) {
      await expect(unpacked([wrong])).rejects.toThrow(NotReadable);
    }
    // Before POSIX a header had no place for a name's beginning: other programs pass over what stands there.
    const old = withHeader(257, '\u0000'.repeat(8));
    old.set(withHeader(345, 'hidden\u0000').subarray(345, 352), 345);
    const name = await unpacked([checksummed(old)]).then(([first]) => first?.name);
    expect(name).toBe('some/file');
    // Programs fill up the last record with zeros.
    expect(await unpacked([concatBytes(bytes, new Uint8Array(8192))])).toHaveLength(1);
  });
});

describe('lines', () => {
  it('are the same however the bytes arrive', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.stringMatching(/^[^\n]*$/)),
        fc.integer({ min: 1, max: 50 }),
        async (lines, length) => {
          const read: (string | null)[] = [];
          for await (const line of linesOf(cut(utf8(lines.map((line) => `${line}\n`).join('')), length)))
            read.push(textOf(line));
          expect(read).toEqual(lines);
        },
      ),
    );
  });

  it('a last line without a line feed counts; a line without end is cut', async () => {
    const read: string[] = [];
    for await (const line of linesOf([utf8('abcdef\nxy'), utf8('z')], 4)) read.push(textOf(line) ?? '');
    expect(read).toEqual(['abcdef', 'xyz']);
    const long: number[] = [];
    for await (const line of linesOf(cut(new Uint8Array(1000).fill(0x61), 7), 100)) long.push(line.length);
    expect(long).toEqual([100]);
  });
});

import { createHash } from 'node:crypto';
import { describe, expect, it } from '@jest/globals';
import vectors from '../../../test/checks/log/tlog-tiles.json' with { type: 'json' };
import { concatBytes, hex, utf8 } from './bytes.ts';
import { emptyFrontier, extend, rootOf } from './frontier.ts';
import { leafHash } from './merkle-hash.ts';
import {
  entryBundle,
  longestEntry,
  nodesOfTile,
  parseEntryBundle,
  parseTilePath,
  tilePath,
  widthInTree,
} from './tiles.ts';
import type { Tile } from './tiles.ts';

// Figures: paths and counts published in C2SP tlog-tiles, hashes by a second implementation; test/checks/log/README.md.
const level = (text: string | number): Tile['level'] => (text === 'entries' ? 'entries' : Number(text));
const digest = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

describe('tiles (C2SP tlog-tiles)', () => {
  it.each(vectors.paths)('$path', (v) => {
    const tile: Tile = { level: level(v.level), index: v.index, width: v.width };
    expect(tilePath(tile)).toBe(v.path);
    expect(parseTilePath(v.path)).toEqual({ ok: true, value: tile });
  });

  it.each([
    'tile/0/0',
    'tile/00/000',
    'tile/64/000',
    'tile/0/x000/001',
    'tile/0/1000',
    'tile/0/001/002',
    'tile/0/000.p/0',
    'tile/0/000.p/256',
    'tile/0/000.p/01',
    'tile/entry/000',
    '/tile/0/000',
    'tile/0/000/../001',
    `tile/0/${'x999/'.repeat(6)}999`,
  ])('refuses %s', (path) => {
    expect(parseTilePath(path).ok).toBe(false);
  });

  it.each(vectors.trees)('of a tree of $treeSize have the root, widths and content', (tree) => {
    const entries = Array.from({ length: tree.treeSize }, (_, i) => utf8(String(i)));
    const { frontier, nodes } = extend(emptyFrontier, entries.map(leafHash));
    expect(hex(rootOf(frontier))).toBe(tree.root);
    const table = new Map(nodes.map((node) => [`${node.level}/${node.index}`, node.hash]));
    for (const tile of tree.tiles) {
      expect(widthInTree(tile.level, tile.index, tree.treeSize)).toBe(tile.width);
      const ids = nodesOfTile(tile.level, tile.index, tile.width);
      const content = concatBytes(...ids.map((id) => table.get(`${id.level}/${id.index}`) ?? new Uint8Array(0)));
      expect(tilePath(tile)).toBe(tile.path);
      expect(content.length).toBe(tile.bytes);
      expect(digest(content)).toBe(tile.sha256);
    }
    for (const expected of tree.entryBundles) {
      const tile = parseTilePath(expected.path);
      if (!tile.ok) throw new Error(tile.why);
      expect(widthInTree('entries', tile.value.index, tree.treeSize)).toBe(expected.width);
      const start = tile.value.index * 256;
      const slice = entries.slice(start, start + expected.width);
      const bundle = entryBundle(slice);
      expect(bundle.length).toBe(expected.bytes);
      expect(digest(bundle)).toBe(expected.sha256);
      expect(parseEntryBundle(bundle)).toEqual({ ok: true, value: slice });
    }
  });

  it('a tile beyond the tree has no width', () => {
    expect(widthInTree(0, 2, 512)).toBe(0);
    expect(widthInTree(1, 0, 255)).toBe(0);
    expect(widthInTree('entries', 5, 100)).toBe(0);
  });
});

describe('entry bundles', () => {
  it('carry entries up to 65,535 bytes and refuse longer ones', () => {
    const longest = new Uint8Array(longestEntry).fill(0x20);
    expect(parseEntryBundle(entryBundle([longest, utf8('x')]))).toEqual({ ok: true, value: [longest, utf8('x')] });
    expect(() => entryBundle([new Uint8Array(longestEntry + 1)])).toThrow(RangeError);
  });

  it('are refused where they end within an entry', () => {
    const bundle = entryBundle([utf8('abc')]);
    for (let length = 1; length < bundle.length; length++) {
      expect(parseEntryBundle(bundle.subarray(0, length)).ok).toBe(false);
    }
  });
});

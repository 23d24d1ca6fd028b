import { concatBytes } from './bytes.ts';
import { bad, good } from './checked.ts';
import type { Checked } from './checked.ts';
import type { NodeId } from './frontier.ts';

/*
 * C2SP tlog-tiles (https://c2sp.org/tlog-tiles): the tree cut into files that never change once full.
 *
 *   tile/<L>/<N>[.p/<W>]         up to 256 hashes: the nodes (8·L, 256·N …) of the tree, 32 bytes each
 *   tile/entries/<N>[.p/<W>]     up to 256 entries: big-endian uint16 length || bytes, each
 *
 *   L   0 … 63;  N   groups of three digits, all but the last with an x: 1234067 is x001/x234/067
 *   W   1 … 255, the width of a tile that the tree does not fill yet
 */

/** Hashes or entries in a full tile. */
export const tileWidth = 256;

/** The longest entry that a bundle can carry, in bytes. */
export const longestEntry = 65_535;

export interface Tile {
  readonly level: number | 'entries';
  readonly index: number;
  /** 1 … 256; below 256 it is a partial tile. */
  readonly width: number;
}

/** The path of a tile, without a leading slash. */
export function tilePath({ level, index, width }: Tile): string {
  const groups = [String(index % 1000).padStart(3, '0')];
  for (let rest = Math.floor(index / 1000); rest > 0; rest = Math.floor(rest / 1000)) {
    groups.unshift('x' + String(rest % 1000).padStart(3, '0'));
  }
  return `tile/${level}/${groups.join('/')}${width === tileWidth ? '' : `.p/${width}`}`;
}

/** Reads the path of a tile, in its one proper spelling. Whether the tree has it: {@link widthInTree}. */
export function parseTilePath(path: string): Checked<Tile> {
  const parts = /^tile\/(entries|[0-9]{1,2})\/((?:x[0-9]{3}\/)*[0-9]{3})(?:\.p\/([0-9]{1,3}))?$/.exec(path);
  const [level, groups] = [parts?.[1], parts?.[2]];
  if (level === undefined || groups === undefined) return bad('not the path of a tile');
  const tile: Tile = {
    level: level === 'entries' ? level : Number(level),
    index: Number(groups.replaceAll(/[x/]/g, '')),
    width: Number(parts?.[3] ?? tileWidth),
  };
  const inRange = (tile.level === 'entries' || tile.level <= 63) && tile.width >= 1 && Number.isSafeInteger(tile.index);
  return inRange && tilePath(tile) === path ? good(tile) : bad('not the path of a tile');
}

/** How wide the tile at this place is in a tree of this size: 0 (it has none) … 256 (full). */
export function widthInTree(level: number | 'entries', index: number, size: number): number {
  const hashes = level === 'entries' ? size : Math.floor(size / 2 ** (8 * level));
  return Math.min(tileWidth, Math.max(0, hashes - index * tileWidth));
}

/** The nodes whose hashes, one after another, are the tile. */
export function nodesOfTile(level: number, index: number, width: number): NodeId[] {
  return Array.from({ length: width }, (_, i) => ({ level: 8 * level, index: index * tileWidth + i }));
}

/** The entry bundle of up to 256 entries. Throws RangeError where an entry is longer than 65,535 bytes. */
export function entryBundle(entries: readonly Uint8Array[]): Uint8Array {
  return concatBytes(
    ...entries.flatMap((entry) => {
      if (entry.length > longestEntry) throw new RangeError(`an entry has at most ${longestEntry} bytes`);
      return [Uint8Array.of(entry.length >> 8, entry.length & 0xff), entry];
    }),
  );
}

/** The entries of a bundle. */
export function parseEntryBundle(bundle: Uint8Array): Checked<Uint8Array[]> {
  const entries: Uint8Array[] = [];
  for (let at = 0; at < bundle.length;) {
    const [high, low] = [bundle[at], bundle[at + 1]];
    const end = at + 2 + (high ?? 0) * 256 + (low ?? 0);
    if (low === undefined || end > bundle.length) return bad('the entry bundle ends within an entry');
    entries.push(bundle.subarray(at + 2, end));
    at = end;
  }
  return good(entries);
}

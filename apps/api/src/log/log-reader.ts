import { Injectable } from '@nestjs/common';
import {
  base64,
  entryBundle,
  fromBase64,
  nodesForConsistency,
  nodesForInclusion,
  nodesForRoot,
  nodesOfTile,
  proofFrom,
  rootOf,
  tileWidth,
  tlogProofText,
  widthInTree,
  type ProofPlan,
  type Tile,
} from '@furrowmark/log';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { OperationScope } from '../database/index.ts';
import { int8, readHead, type Head } from './head.ts';
import { hashesOf } from './nodes.ts';
import { Signing } from './signing.ts';

const entryRows = z.array(z.object({ bytes: z.instanceof(Buffer) }));
const placed = z.array(z.object({ seq: int8, bytes: z.instanceof(Buffer) }));

/** Size and root of a log. */
export interface LogState {
  readonly size: number;
  /** Base64. */
  readonly root: string;
}

/** What a log can show of itself: its signed state, proofs, entries, tiles. All read from committed rows. */
@Injectable()
export class LogReader {
  constructor(
    private readonly scope: OperationScope,
    private readonly signing: Signing,
  ) {}

  async state(operationId: string): Promise<LogState> {
    const { size, root } = await this.#read(operationId, (_, head) => Promise.resolve(head));
    return { size, root: base64(root) };
  }

  /** The newest checkpoint: a signed note of origin, size and root. */
  checkpoint(operationId: string): Promise<string> {
    return this.#read(operationId, (manager, head) => this.signing.sign(manager, operationId, head));
  }

  /** The verifier key line of the operation's log; null for a log that came from elsewhere and does not name its key. */
  verifierKey(operationId: string): Promise<string | null> {
    return this.#read(operationId, (manager, head) => this.signing.verifierKey(manager, operationId, head));
  }

  /** The path from an entry's leaf hash to the root at `size`; null where the log has no such entry or size. */
  inclusion(operationId: string, seq: number, atSize?: number) {
    return this.#read(operationId, async (manager, head) => {
      const size = atSize ?? head.size;
      if (size > head.size || seq >= size) return null;
      const plan = nodesForInclusion(seq, size);
      const edge = nodesForRoot(size);
      const hashes = await hashesOf(manager, operationId, [{ level: 0, index: seq }, ...edge, ...plan.nodes]);
      const root = rootOf({ size, edge: hashes.slice(1, 1 + edge.length) });
      return {
        leafHash: base64(hashes[0] ?? new Uint8Array()),
        root: base64(root),
        path: proofOf(plan, hashes.slice(1 + edge.length)),
        seq,
        size,
      };
    });
  }

  /**
   * A record's C2SP proof file: its entry, its place, the path to the root, the signed checkpoint. It needs nothing but
   * the log's key to be checked. null where no entry has this id.
   */
  async proofFile(operationId: string, recordId: string): Promise<{ seq: number; text: string } | null> {
    const { checkpoint, size, found } = await this.#read(operationId, async (manager, head) => ({
      checkpoint: await this.signing.sign(manager, operationId, head),
      size: head.size,
      found: placed.parse(
        await manager.query('SELECT seq, bytes FROM log_entry WHERE operation_id = $1 AND record_id = $2', [
          operationId,
          recordId,
        ]),
      )[0],
    }));
    const proof = found === undefined ? null : await this.inclusion(operationId, found.seq, size);
    if (found === undefined || proof === null) return null;
    const path = proof.path.flatMap((hash) => fromBase64(hash) ?? []);
    return { seq: found.seq, text: tlogProofText({ index: found.seq, path, checkpoint, extra: found.bytes }) };
  }

  /** What shows that the log of size `to` begins with the log of size `from`; null where the log is not that large. */
  consistency(operationId: string, from: number, toSize?: number) {
    return this.#read(operationId, async (manager, head) => {
      const to = toSize ?? head.size;
      if (to > head.size || from > to) return null;
      // Every log begins with the empty one; there is nothing to show.
      if (from === 0) return { path: [], from, to };
      const plan = nodesForConsistency(from, to);
      return { path: proofOf(plan, await hashesOf(manager, operationId, plan.nodes)), from, to };
    });
  }

  /** The exact canonical bytes of entries `from` up to `to` (exclusive), as many as `most`. */
  entries(operationId: string, from: number, to: number | undefined, most: number) {
    return this.#read(operationId, async (manager, head) => {
      const end = Math.min(to ?? head.size, head.size);
      const last = Math.min(end, from + most);
      return { bytes: await entryBytes(manager, operationId, from, last), end, next: last < end ? last : null };
    });
  }

  /** A tile as C2SP tlog-tiles lays it out; null where the tree has none of that width (yet). */
  tile(operationId: string, tile: Tile): Promise<Uint8Array | null> {
    return this.#read(operationId, async (manager, head) => {
      if (tile.width > widthInTree(tile.level, tile.index, head.size)) return null;
      const { level, index, width } = tile;
      if (level !== 'entries')
        return Buffer.concat(await hashesOf(manager, operationId, nodesOfTile(level, index, width)));
      const from = index * tileWidth;
      return entryBundle(await entryBytes(manager, operationId, from, from + width));
    });
  }

  #read<T>(operationId: string, work: (manager: EntityManager, head: Head) => Promise<T>): Promise<T> {
    return this.scope.run(operationId, async (manager) => {
      const head = await readHead(manager, operationId);
      if (head === null) throw new Error(`the operation ${operationId} has no log`);
      return work(manager, head);
    });
  }
}

const proofOf = (plan: ProofPlan, hashes: readonly Uint8Array[]): string[] => proofFrom(plan, hashes).map(base64);

async function entryBytes(manager: EntityManager, operationId: string, from: number, to: number): Promise<Buffer[]> {
  if (to <= from) return [];
  const found = entryRows.parse(
    await manager.query('SELECT bytes FROM log_entry WHERE operation_id = $1 AND seq >= $2 AND seq < $3 ORDER BY seq', [
      operationId,
      from,
      to,
    ]),
  );
  return found.map(({ bytes }) => bytes);
}

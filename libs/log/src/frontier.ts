import { emptyRoot, nodeHash } from './merkle-hash.ts';

/** A node of the tree: level 0 holds the leaf hashes; node (l, i) covers leaves i·2^l up to (i+1)·2^l. */
export interface NodeId {
  readonly level: number;
  readonly index: number;
}

/** A complete subtree's hash, with its place. Once complete it never changes. */
export interface TreeNode extends NodeId {
  readonly hash: Uint8Array;
}

/**
 * What is needed of a tree to append to it: its size and the hashes of the complete subtrees along its right edge,
 * the largest (leftmost) first. Size 11 = 8 + 2 + 1 has three: over leaves 0–7, 8–9 and 10. They are the nodes that
 * {@link nodesForRoot} names.
 */
export interface Frontier {
  readonly size: number;
  readonly edge: readonly Uint8Array[];
}

/** The tree without leaves. */
export const emptyFrontier: Frontier = { size: 0, edge: [] };

/** The complete subtrees that cover leaves `from` up to `to`, left to right, where `from` starts a subtree of the tree. */
export function subtreesOver(from: number, to: number): NodeId[] {
  const nodes: NodeId[] = [];
  for (let start = from; start < to;) {
    const level = Math.floor(Math.log2(to - start));
    // log2 of a number just below a power of two may round up.
    const fit = 2 ** level <= to - start ? level : level - 1;
    nodes.push({ level: fit, index: start / 2 ** fit });
    start += 2 ** fit;
  }
  return nodes;
}

/** The nodes whose hashes make up {@link Frontier.edge} at a size; read them and the tree can be extended. */
export function nodesForRoot(size: number): NodeId[] {
  return subtreesOver(0, size);
}

/** The root (Merkle Tree Hash) of a frontier: the edge joined from the right. */
export function rootOf(frontier: Frontier): Uint8Array {
  return frontier.edge.length === 0 ? emptyRoot() : joined(frontier.edge);
}

/** The hash over neighbouring complete subtrees, the largest first, joined as RFC 9162 splits them. */
export function joined(hashes: readonly Uint8Array[]): Uint8Array {
  return hashes.reduceRight((right, left) => nodeHash(left, right));
}

/** The tree after new leaves, and every subtree that became complete, the leaves (level 0) included, in order. */
export function extend(
  frontier: Frontier,
  leafHashes: Iterable<Uint8Array>,
): { frontier: Frontier; nodes: TreeNode[] } {
  const nodes: TreeNode[] = [];
  const appender = new TreeAppender(frontier, (node) => nodes.push(node));
  for (const leaf of leafHashes) appender.append(leaf);
  return { frontier: appender.frontier(), nodes };
}

/** A growing tree for long runs: keeps only its right edge, O(log n) memory, and about one node hash per leaf. */
export class TreeAppender {
  #size: number;
  readonly #edge: Uint8Array[];
  readonly #completed: ((node: TreeNode) => void) | undefined;

  constructor(frontier: Frontier = emptyFrontier, completed?: (node: TreeNode) => void) {
    if (frontier.edge.length !== nodesForRoot(frontier.size).length) {
      throw new RangeError(`a tree of size ${frontier.size} does not have ${frontier.edge.length} right-edge hashes`);
    }
    this.#size = frontier.size;
    this.#edge = [...frontier.edge];
    this.#completed = completed;
  }

  get size(): number {
    return this.#size;
  }

  append(leafHash: Uint8Array): void {
    let [level, index, hash] = [0, this.#size, leafHash];
    this.#completed?.({ level, index, hash });
    // Every odd index closes the subtree whose left half stands last on the edge: like a carry in binary counting.
    while (index % 2 === 1) {
      const left = this.#edge.pop();
      if (left === undefined) throw new RangeError('the right edge does not fit the size');
      hash = nodeHash(left, hash);
      level += 1;
      index = (index - 1) / 2;
      this.#completed?.({ level, index, hash });
    }
    this.#edge.push(hash);
    this.#size += 1;
  }

  frontier(): Frontier {
    return { size: this.#size, edge: [...this.#edge] };
  }

  root(): Uint8Array {
    return rootOf(this.frontier());
  }
}

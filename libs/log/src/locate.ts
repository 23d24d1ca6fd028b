import { base64 } from './bytes.ts';
import type { HashList } from './hash-list.ts';

/** What happened to one entry. `seq` is its number in the log as it was signed; of an added entry, where it stands now. */
export interface Difference {
  readonly kind: 'altered' | 'missing' | 'added' | 'moved';
  readonly seq: number;
}

/**
 * Compares the entries present with the leaf hashes that lead to a signed root, and says which entry was altered,
 * removed, put in or moved. Needs nothing but the hashes and the number that each present entry claims for itself.
 *
 * @param claimed the `seq` inside each present entry, by position; null where it could not be read. Entries that
 *   bear a number of `size` or more came later and are none of this comparison's business
 */
export function locate(
  present: HashList,
  claimed: readonly (number | null)[],
  signed: HashList,
  size: number,
): Difference[] {
  const place = new Map<string, number>();
  for (let seq = 0; seq < size; seq++) place.set(base64(signed.at(seq)), seq);
  const found = new Set<number>();
  const strangers: number[] = [];
  const differences: Difference[] = [];
  let last = -1;
  for (let position = 0; position < present.length; position++) {
    const seq = place.get(base64(present.at(position)));
    if (seq === undefined) {
      strangers.push(position);
    } else if (found.has(seq)) {
      differences.push({ kind: 'added', seq: position });
    } else {
      found.add(seq);
      if (seq < last) differences.push({ kind: 'moved', seq });
      last = Math.max(last, seq);
    }
  }
  const explained = new Set<number>();
  for (const position of strangers) {
    // Its own number first; then, should that have been changed too, the place where it stands.
    const original = [claimed[position], position].find(
      (seq) => typeof seq === 'number' && seq < size && !found.has(seq) && !explained.has(seq),
    );
    if (typeof original === 'number') {
      explained.add(original);
      differences.push({ kind: 'altered', seq: original });
    } else if ((claimed[position] ?? position) < size) {
      differences.push({ kind: 'added', seq: position });
    }
  }
  for (let seq = 0; seq < size; seq++) {
    if (!found.has(seq) && !explained.has(seq)) differences.push({ kind: 'missing', seq });
  }
  return differences.sort((a, b) => a.seq - b.seq);
}

/**
 * Views that are folded when first asked for and kept until something they read has changed. While a view is folded,
 * everything it reads is noted, other views included; so what must be forgotten is known exactly, not guessed.
 */
export class Memo {
  readonly #readers = new Map<string, Set<string>>();
  readonly #forget = new Map<string, () => void>();
  readonly #reading: { readonly key: string; readonly reads: Set<string> }[] = [];

  /** Notes that the view being folded depends on this key. */
  read(key: string): void {
    this.#reading.at(-1)?.reads.add(key);
  }

  /** A kept view per id. `fold` must read the records only through what notes its reads. */
  view<T>(name: string, fold: (id: string) => T): (id: string) => T {
    const kept = new Map<string, { readonly value: T }>();
    return (id) => {
      const key = `${name} ${id}`;
      this.read(key);
      const before = kept.get(id);
      if (before !== undefined) return before.value;
      const value = this.#fold(
        key,
        () => fold(id),
        () => kept.delete(id),
      );
      kept.set(id, { value });
      return value;
    };
  }

  #fold<T>(key: string, fold: () => T, drop: () => void): T {
    if (this.#reading.some((each) => each.key === key)) throw new Error(`the view ${key} was folded from itself`);
    const reads = new Set<string>();
    this.#reading.push({ key, reads });
    try {
      return fold();
    } finally {
      this.#reading.pop();
      for (const each of reads) {
        const readers = this.#readers.get(each);
        if (readers === undefined) this.#readers.set(each, new Set([key]));
        else readers.add(key);
      }
      this.#forget.set(key, () => {
        drop();
        for (const each of reads) this.#readers.get(each)?.delete(key);
      });
    }
  }

  /** Forgets every view that read one of these keys, at any remove; returns their keys (`name id`). */
  changed(keys: Iterable<string>): ReadonlySet<string> {
    const gone = new Set<string>();
    const next = [...keys];
    for (let key = next.pop(); key !== undefined; key = next.pop()) {
      for (const reader of [...(this.#readers.get(key) ?? [])]) {
        if (gone.has(reader)) continue;
        gone.add(reader);
        this.#forget.get(reader)?.();
        this.#forget.delete(reader);
        next.push(reader);
      }
    }
    return gone;
  }
}

/** So many readers stand in a list; more in a set. */
const few = 8;

/** Something that views are folded from: a part of the records, or another view. */
export class Readable {
  /** The views that read it. There are very many of these, most with one reader or none. */
  #readers: View | View[] | Set<View> | null = null;

  /** Notes a reader; whether it is a new one. */
  readBy(view: View): boolean {
    const readers = this.#readers;
    if (readers === view) return false;
    if (readers === null) this.#readers = view;
    else if (readers instanceof View) this.#readers = [readers, view];
    else if (readers instanceof Set) {
      if (readers.has(view)) return false;
      readers.add(view);
    } else if (readers.includes(view)) return false;
    else if (readers.length < few) readers.push(view);
    else this.#readers = new Set([...readers, view]);
    return true;
  }

  /** The view does not hold any more. */
  leave(view: View): void {
    const readers = this.#readers;
    if (readers === view) this.#readers = null;
    else if (readers instanceof Set) readers.delete(view);
    else if (Array.isArray(readers)) this.#readers = readers.filter((each) => each !== view);
  }

  get readers(): readonly View[] {
    const readers = this.#readers;
    return readers === null ? [] : readers instanceof View ? [readers] : [...readers];
  }
}

/** A view of one id, as folded once. */
export class View extends Readable {
  reads: Readable[] = [];

  constructor(
    readonly name: string,
    readonly id: string,
    /** Where it is kept by id. */
    readonly keptIn: Map<string, View>,
  ) {
    super();
  }
}

class KeptView<T> extends View {
  /** Absent while it is being folded. */
  result: { readonly value: T } | null = null;
}

/**
 * Views that are folded when first asked for and kept until something they read has changed. While a view is folded,
 * everything it reads is noted, other views included; so what must be forgotten is known exactly, not guessed.
 */
export class Memo {
  #folding: View | null = null;

  /** Notes that the view being folded depends on this. */
  read(what: Readable): void {
    const view = this.#folding;
    if (view !== null && what.readBy(view)) view.reads.push(what);
  }

  /** A kept view per id. `fold` must read the records only through what notes its reads. */
  view<T>(name: string, fold: (id: string) => T): (id: string) => T {
    const kept = new Map<string, KeptView<T>>();
    return (id) => {
      const before = kept.get(id);
      if (before !== undefined) {
        if (before.result === null) throw new Error(`the view ${name} ${id} was folded from itself`);
        this.read(before);
        return before.result.value;
      }
      const view = new KeptView<T>(name, id, kept);
      this.read(view);
      kept.set(id, view);
      const outer = this.#folding;
      this.#folding = view;
      try {
        const value = fold(id);
        view.result = { value };
        // Without the room that it kept for growing.
        view.reads = view.reads.slice();
        return value;
      } finally {
        this.#folding = outer;
        // What failed is not kept; whoever read it is told of changes all the same.
        if (view.result === null) kept.delete(id);
      }
    };
  }

  /** Forgets every view that read one of these, at any remove, and gives them. */
  changed(what: Iterable<Readable>): ReadonlySet<View> {
    const gone = new Set<View>();
    const next = [...what];
    for (let each = next.pop(); each !== undefined; each = next.pop()) {
      for (const reader of each.readers) {
        if (gone.has(reader)) continue;
        gone.add(reader);
        if (reader.keptIn.get(reader.id) === reader) reader.keptIn.delete(reader.id);
        for (const read of reader.reads) read.leave(reader);
        next.push(reader);
      }
    }
    return gone;
  }
}

/** A list of references that has become text: it prints itself where pdfkit would print the objects. */
class Settled {
  readonly #text: string;
  constructor(text: string) {
    this.#text = text;
  }
  /** pdfkit prints anything that is no plain object by its string. */
  get [Symbol.toStringTag](): string {
    return 'Settled';
  }
  toString(): string {
    return this.#text;
  }
}

/**
 * The parent tree says, for each page's marked content, which structure element owns it, and is written at the end. pdfkit
 * keeps the elements' objects for that: about half a megabyte for a page of table cells. A finished page needs only their
 * numbers; so its entries are turned to text, and the objects can leave memory.
 */
export class ParentTree {
  readonly #doc: PDFKit.PDFDocument;
  #settled = 0;

  constructor(doc: PDFKit.PDFDocument) {
    this.#doc = doc;
  }

  /** Call when a page is finished and before the next one is begun. */
  settle(): void {
    const tree = this.#doc.getStructParentTree();
    for (let entry = tree.get(this.#settled); entry !== undefined; entry = tree.get(this.#settled)) {
      const text = Array.isArray(entry) ? `[${entry.map(String).join(' ')}]` : String(entry);
      tree.add(this.#settled, new Settled(text));
      this.#settled += 1;
    }
  }
}

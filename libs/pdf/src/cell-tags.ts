import type { Sheet, Tag } from './sheet.ts';

/** One cell of a row: what it is, and its drawing. */
type Paint = () => void;

/**
 * The structure of plain rows. A table's row has an element for itself and one for each cell; pdfkit keeps an object with
 * its children, its dictionary and its buffer for each, which for a long table is most of its work. A row that is drawn in
 * one go is known whole: its elements are written down as they are in the file (ISO 32000-1, 14.7.2), and only the row's
 * number is kept, for the body that it belongs to.
 */
export class CellTags {
  readonly #sheet: Sheet;

  constructor(sheet: Sheet) {
    this.#sheet = sheet;
  }

  /** Draws the cells of a row one after the other, each as marked content of its own element. */
  row(body: Tag, cells: readonly Paint[]): void {
    const { doc } = this.#sheet;
    const row = doc.ref({});
    const page = doc.page.dictionary;
    const owners = doc.getStructParentTree().get(doc.page.structParentTreeKey);
    if (!Array.isArray(owners)) throw new Error('a page has no list of its marked content');
    const ids = cells.map((paint) => {
      const cell = doc.ref({});
      const mcid = owners.push(cell) - 1;
      doc.addContent(`/TD <</MCID ${mcid}>> BDC`);
      paint();
      doc.addContent('EMC');
      written(doc, cell, `<</S /TD /P ${row.id} 0 R /Pg ${page.id} 0 R /K [${mcid}]>>`);
      return cell.id;
    });
    const kids = ids.map((id) => `${id} 0 R`).join(' ');
    written(doc, row, `<</S /TR /P ${body.dictionary.id} 0 R /K [${kids}]>>`);
    adopt(body, row);
  }
}

function written(doc: PDFKit.PDFDocument, reference: PDFKit.PDFKitReference, dictionary: string): void {
  reference.offset = doc._offset;
  doc._write(`${reference.id} 0 obj\n${dictionary}\nendobj`);
  doc._refEnd(reference);
}

/** Has an element name one that is written already among its children. */
function adopt(parent: Tag, child: PDFKit.PDFKitReference): void {
  const stand = {
    dictionary: child,
    setParent: () => undefined,
    setAttached: () => undefined,
    end: () => undefined,
    _isFlushable: () => true,
  };
  // pdfkit takes only elements of its own for children: this one has their prototype, and is finished already.
  parent.add(Object.setPrototypeOf(stand, Object.getPrototypeOf(parent)));
}

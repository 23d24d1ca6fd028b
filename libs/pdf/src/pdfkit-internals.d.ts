// Members of pdfkit 0.20.2 that its type package does not declare. Each use names why the public surface is not enough.
declare namespace PDFKit {
  interface GlyphPosition {
    readonly xAdvance: number;
    readonly advanceWidth: number;
    readonly xOffset: number;
    readonly yOffset: number;
  }
  interface PDFKitReference {
    readonly id: number;
    offset: number;
  }
  interface PDFPage {
    readonly structParentTreeKey: number;
    end(): unknown;
  }
  interface PDFStructureElement {
    readonly dictionary: PDFKitReference;
  }
  interface PDFDocument {
    /** Encodes text into the embedded font's glyph codes; used for page numbers that are known only later. */
    _font: {
      readonly id: string;
      readonly font: { hasGlyphForCodePoint(codePoint: number): boolean };
      /** Codes of the embedded subset, and each glyph's place in thousandths of the size; features: not kept by pdfkit. */
      encode(text: string, features?: readonly string[]): [codes: string[], positions: GlyphPosition[]];
      ref(): PDFKitReference;
    };
    /** Where the next byte stands in the file, and what puts it there: gathered, so that long reports are quick. */
    _offset: number;
    _write(data: string | Uint8Array): void;
    push(chunk: Uint8Array): boolean;
    /** Told of each object that is written, for the table of places at the end. */
    _refEnd(reference: PDFKitReference): void;
    /** The file identifier: set from the content, so that equal content gives equal bytes. */
    _id: Uint8Array;
    read(): Uint8Array | null;
    /** Marked content to structure elements; entries are made text when their page is finished. */
    getStructParentTree(): { get(key: number): unknown; add(key: number, value: object): void };
  }
}
declare namespace PDFKit {
  interface PDFOutline {
    /** The item's dictionary; pdfkit counts only direct children, and only of expanded items. */
    readonly outlineData: { Count?: number };
  }
}
declare namespace PDFKit.Mixins {
  interface PDFAttachmentOptions {
    relationship?: 'Source' | 'Data' | 'Supplement' | 'Alternative' | 'Unspecified';
  }
  interface StructureElementOptions {
    scope?: 'Row' | 'Column' | 'Both';
    bbox?: [number, number, number, number];
    placement?: 'Block' | 'Inline';
  }
  interface AnnotationOption {
    structParent?: PDFKit.PDFStructureElement;
  }
}

import type { ReportContent } from '@furrowmark/reports';
import { LateNumber, lateNumberWidth } from './late-number.ts';
import { ink, margin, paperSizes, type, type Paper, type TextStyle } from './paper.ts';
import { ParentTree } from './parent-tree.ts';
import { Typesetter } from './typesetter.ts';
import { words, type PageWords } from './words.ts';

export type Tag = PDFKit.PDFStructureElement;
type Align = 'left' | 'right' | 'center';

/** A place on the page, to a thousandth of a point. */
const rounded = (points: number): number => Math.round(points * 1000) / 1000;

const operators = new Map<string, { readonly fill: string; readonly stroke: string }>();

/** The operators that choose a colour (ISO 32000-1, 8.6.8), from `#rrggbb`. */
function operatorsOf(color: string): { readonly fill: string; readonly stroke: string } {
  let known = operators.get(color);
  if (known === undefined) {
    const parts = [1, 3, 5].map((at) => rounded(parseInt(color.slice(at, at + 2), 16) / 255)).join(' ');
    operators.set(color, (known = { fill: `${parts} rg`, stroke: `${parts} RG` }));
  }
  return known;
}
const fillOf = (color: string): string => operatorsOf(color).fill;
const strokeOf = (color: string): string => operatorsOf(color).stroke;

/**
 * The pages being written: a cursor that runs down, a new page when it must, running header and footer as artifacts, and
 * the structure tree. Finished pages leave memory at once; so the header's page total is drawn when all are known.
 */
export class Sheet {
  readonly doc: PDFKit.PDFDocument;
  readonly content: ReportContent;
  readonly set: Typesetter;
  readonly words: PageWords;
  readonly root: Tag;
  readonly #paper: Paper;
  readonly #total: LateNumber;
  readonly #parents: ParentTree;
  readonly #destinations = new Map<string, string>();
  readonly #pages = new Map<string, number>();
  readonly #references: { readonly anchor: string; readonly number: LateNumber }[] = [];
  #landscape = false;
  /** The part that the page belongs to, of a report that has several: pages get taken out of a folder. */
  part: string | undefined;
  page = 0;
  y = 0;

  constructor(doc: PDFKit.PDFDocument, content: ReportContent, paper: Paper) {
    this.doc = doc;
    this.content = content;
    this.#paper = paper;
    this.set = new Typesetter(doc);
    this.words = words[content.language];
    this.#total = new LateNumber(doc, type.chrome, 'Total');
    this.#parents = new ParentTree(doc);
    this.root = doc.struct('Document', { title: content.title });
    doc.addStructure(this.root);
  }

  get width(): number {
    return this.doc.page.width - margin.left - margin.right;
  }
  get left(): number {
    return margin.left;
  }
  get right(): number {
    return this.doc.page.width - margin.right;
  }
  get top(): number {
    return margin.top;
  }
  get bottom(): number {
    return this.doc.page.height - margin.bottom;
  }
  /** Points left on this page. */
  get room(): number {
    return this.bottom - this.y;
  }

  /** Width of the text area in either orientation. */
  widthFor(landscape: boolean): number {
    return paperSizes[this.#paper][landscape ? 1 : 0] - margin.left - margin.right;
  }

  newPage(landscape = this.#landscape): void {
    this.#landscape = landscape;
    const [short, long] = paperSizes[this.#paper];
    this.#parents.settle();
    this.doc.addPage({
      size: landscape ? [long, short] : [short, long],
      margins: { top: 0, bottom: 0, left: 0, right: 0 },
    });
    this.page += 1;
    this.y = this.top;
    this.artifact('Pagination', () => {
      this.#header();
      this.#footer();
    });
  }

  /** Breaks the page unless `height` points are left on it, or it is still empty. */
  need(height: number): void {
    if (this.room < height && this.y > this.top) this.newPage();
  }

  #header(): void {
    const style = type.chrome;
    const { operation, title, period } = this.content;
    const label = this.words.pageOf(this.page);
    this.line(label, this.left, 34, style, { color: ink.quiet });
    this.#total.draw(this.left + this.set.width(label, style), 34);
    const dates = period === undefined ? '' : ` · ${period.from} – ${period.to}`;
    const part = this.part === undefined ? '' : ` · ${this.part}`;
    const running = this.set.printable.text(`${operation.name} · ${title}${part}${dates}`);
    const clipped = this.set.clip(running, style, this.width - 90);
    this.line(clipped, this.left, 34, style, { color: ink.quiet, align: 'right', width: this.width });
    this.rule(this.left, this.right, 41);
  }

  #footer(): void {
    const style = type.chrome;
    const y = this.doc.page.height - 30;
    const { log, preparedAt } = this.content;
    this.rule(this.left, this.right, y - 11);
    const prepared = this.set.printable.text(preparedAt);
    const preparedWidth = this.set.width(prepared, style);
    const text = this.set.printable.text(`${this.words.logEntries(log.size)} · ${this.words.root} ${log.root}`);
    this.line(this.set.clip(text, style, this.width - preparedWidth - 12), this.left, y, style, { color: ink.quiet });
    this.line(prepared, this.left, y, style, { color: ink.quiet, align: 'right', width: this.width });
  }

  /** Sets one line with its baseline at `y`. The text must be printable already. */
  line(
    text: string,
    x: number,
    y: number,
    style: TextStyle,
    options: {
      readonly color?: string;
      readonly align?: Align;
      readonly width?: number;
      readonly strike?: boolean;
    } = {},
  ): void {
    if (text === '') return;
    const { color = ink.text, align = 'left', width = 0, strike = false } = options;
    const own = align === 'left' && !strike ? 0 : this.set.width(text.trimEnd(), style);
    const at = align === 'right' ? x + width - own : align === 'center' ? x + (width - own) / 2 : x;
    this.#show(text, at, y, style, color);
    if (strike) {
      const height = y - style.size * 0.24;
      this.doc.moveTo(at, height).lineTo(at + own, height);
      this.doc.lineWidth(0.7).strokeColor(color).stroke();
    }
  }

  #show(text: string, x: number, y: number, style: TextStyle, color: string): void {
    const { doc } = this;
    const shown = this.set.runs.shown(text, style.font);
    if (shown === null) {
      doc.font(style.font).fontSize(style.size).fillColor(color);
      doc.text(text, x, y, { lineBreak: false, baseline: 'alphabetic' });
      return;
    }
    const face = doc.font(style.font)._font;
    doc.page.fonts[face.id] ??= face.ref();
    // The page's coordinates run down; letters stand upright again by the matrix.
    const place = `1 0 0 -1 ${rounded(x)} ${rounded(y)} Tm`;
    doc.addContent(`BT ${fillOf(color)} /${face.id} ${style.size} Tf ${place} [${shown}] TJ ET`);
  }

  /** A line of text on a white ground, so that strokes behind it do not cross it. */
  haloed(text: string, x: number, y: number, style: TextStyle, color: string = ink.text): void {
    const width = this.set.width(text, style);
    this.doc
      .rect(x - 1, y - style.size * 0.72, width + 2, style.size * 0.95)
      .fillColor(ink.white)
      .fill();
    this.line(text, x, y, style, { color });
  }

  /** A hairline. Call inside an artifact or a figure. */
  rule(from: number, to: number, y: number, width = 0.4, color: string = ink.rule): void {
    const line = `${rounded(from)} ${rounded(y)} m ${rounded(to)} ${rounded(y)} l S`;
    this.doc.addContent(`${width} w ${strokeOf(color)} ${line}`);
  }

  /** Draws what is no content: rules, boxes, repeated headers. */
  artifact(kind: 'Pagination' | 'Layout', draw: () => void): void {
    this.doc.markContent('Artifact', { type: kind });
    draw();
    this.doc.endMarkedContent();
  }

  /** Opens a structure element under another. It must be closed with `.end()` so that it leaves memory. */
  open(parent: Tag, name: string, options: PDFKit.Mixins.StructureElementOptions = {}): Tag {
    const tag = this.doc.struct(name, options);
    parent.add(tag);
    return tag;
  }

  /** Draws marked content in an element of its own. */
  tagged(parent: Tag, name: string, draw: () => void, options: PDFKit.Mixins.StructureElementOptions = {}): void {
    const tag = this.open(parent, name, options);
    tag.add(draw);
    tag.end();
  }

  /** The destination name of an anchor: plain ASCII in order of first use, so that the name tree is sorted bytewise. */
  destination(anchor: string): string {
    const known = this.#destinations.get(anchor);
    if (known !== undefined) return known;
    const name = `d${String(this.#destinations.size).padStart(7, '0')}`;
    this.#destinations.set(anchor, name);
    return name;
  }

  /** Marks this place as the one that an anchor leads to. */
  land(anchor: string): void {
    this.#pages.set(anchor, this.page);
    this.doc.addNamedDestination(this.destination(anchor), 'XYZ', this.left, this.y - 8, null);
  }

  /** Draws the number of the page where an anchor's place is, ending at `right`; written once that is known. */
  pageOf(anchor: string, right: number, y: number, style: TextStyle): void {
    const number = new LateNumber(this.doc, style, `Page${this.#references.length}`);
    this.#references.push({ anchor, number });
    number.draw(right - lateNumberWidth, y);
  }

  /** Draws the page total everywhere, and the pages that a list of contents tells. After the last page, before the document ends. */
  finish(): void {
    this.#total.finish(this.page);
    for (const { anchor, number } of this.#references) number.finish(this.#pages.get(anchor), 'right');
    this.root.end();
  }
}

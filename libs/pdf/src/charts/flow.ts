import type { TraceFlow } from '@furrowmark/reports';
import { ink, type } from '../paper.ts';
import type { Sheet } from '../sheet.ts';
import { drawFigure, figureHeight } from './figure.ts';
import { fold } from './flow-layout.ts';

const nodeGap = 9;
const nodePad = 5;
const headHeight = 16;
const mostNodes = 9;
const widestEdge = 22;

interface Box {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly lines: readonly { readonly text: string; readonly strong: boolean }[];
}
interface Layout {
  readonly flow: TraceFlow;
  readonly boxes: ReadonlyMap<string, Box>;
  readonly heads: readonly { readonly text: string; readonly x: number; readonly width: number }[];
  readonly height: number;
}

function layout(sheet: Sheet, written: TraceFlow): Layout {
  const flow = fold(written, mostNodes, sheet.words.furtherNodes);
  const count = Math.max(flow.columns.length, 1);
  const gap = count > 1 ? Math.min(64, (sheet.width * 0.42) / (count - 1)) : 0;
  const width = Math.min(150, (sheet.width - gap * (count - 1)) / count);
  const spread = count > 1 ? (sheet.width - width * count) / (count - 1) : 0;
  const { set } = sheet;
  const columns = flow.columns.map((column, index) => {
    const x = sheet.left + index * (width + spread);
    const nodes = column.nodes.map((node) => {
      const inner = width - nodePad * 2;
      const label = set.wrap(set.printable.text(node.label), type.smallStrong, inner);
      const detail = node.detail === undefined ? [] : set.wrap(set.printable.text(node.detail), type.small, inner);
      const lines = [
        ...label.map((text) => ({ text, strong: true })),
        ...detail.map((text) => ({ text, strong: false })),
      ];
      return { id: node.id, lines, height: lines.length * 10 + nodePad * 2 - 1 };
    });
    const height = nodes.reduce((sum, node) => sum + node.height + nodeGap, -nodeGap);
    return { x, nodes, height, head: { text: set.printable.text(column.label), x, width } };
  });
  const tallest = Math.max(0, ...columns.map(({ height }) => height));
  const boxes = new Map<string, Box>();
  for (const column of columns) {
    let y = headHeight + (tallest - column.height) / 2;
    for (const node of column.nodes) {
      boxes.set(node.id, { ...node, x: column.x, y, width });
      y += node.height + nodeGap;
    }
  }
  return { flow, boxes, heads: columns.map(({ head }) => head), height: headHeight + tallest + 4 };
}

export const flowHeight = (sheet: Sheet, flow: TraceFlow): number =>
  figureHeight(sheet, flow, layout(sheet, flow).height);

/** Left to right where a lot went; the width of a band is the quantity in it. */
export function drawFlow(sheet: Sheet, written: TraceFlow): void {
  const { flow, boxes, heads, height } = layout(sheet, written);
  drawFigure(sheet, flow, height, (top) => {
    for (const head of heads) sheet.line(head.text, head.x, top + 8, type.small, { color: ink.quiet });
    const labels = drawEdges(sheet, flow, boxes, top);
    for (const box of boxes.values()) drawBox(sheet, box, top);
    drawLabels(sheet, labels);
  });
}

function drawBox(sheet: Sheet, box: Box, top: number): void {
  sheet.doc.roundedRect(box.x, top + box.y, box.width, box.height, 2.5).lineWidth(0.8);
  sheet.doc.fillAndStroke(ink.white, ink.text);
  box.lines.forEach((line, index) => {
    const style = line.strong ? type.smallStrong : type.small;
    sheet.line(line.text, box.x + nodePad, top + box.y + nodePad + 7 + index * 10, style);
  });
}

interface EdgeLabel {
  readonly text: string;
  /** Whether its band is thinner than the letters: it would run through them like a stroke. */
  readonly thin: boolean;
  readonly x: number;
  readonly y: number;
}

/** Bands leave and arrive stacked in the order of what they join, so that they cross as little as may be. */
function drawEdges(sheet: Sheet, flow: TraceFlow, boxes: ReadonlyMap<string, Box>, top: number): EdgeLabel[] {
  const edges = flow.edges.flatMap((edge) => {
    const from = boxes.get(edge.from);
    const to = boxes.get(edge.to);
    return from === undefined || to === undefined ? [] : [{ edge, from, to }];
  });
  const load = (id: string, side: 'from' | 'to'): number =>
    edges.reduce((sum, one) => (one[side].id === id ? sum + one.edge.weight : sum), 0);
  // The scale at which the busiest side of every box still has room for all its bands.
  let scale = Infinity;
  for (const box of boxes.values()) {
    const most = Math.max(load(box.id, 'from'), load(box.id, 'to'));
    if (most > 0) scale = Math.min(scale, Math.min(box.height - 4, widestEdge) / most);
  }
  const thick = (weight: number): number => (weight > 0 ? Math.max(weight * scale, 0.8) : 0);
  const stacks = new Map<string, number>();
  const attach = (box: Box, side: 'from' | 'to', weight: number): number => {
    const key = `${side}|${box.id}`;
    const all = edges.filter((one) => one[side].id === box.id).reduce((sum, one) => sum + thick(one.edge.weight), 0);
    const start = stacks.get(key) ?? -all / 2;
    stacks.set(key, start + thick(weight));
    return top + box.y + box.height / 2 + start + thick(weight) / 2;
  };
  const ordered = edges.toSorted((a, b) => a.from.y - b.from.y || a.to.y - b.to.y);
  return ordered.map(({ edge, from, to }) => {
    const [x1, y1, x2, y2] = [
      from.x + from.width,
      attach(from, 'from', edge.weight),
      to.x,
      attach(to, 'to', edge.weight),
    ];
    const middle = (x1 + x2) / 2;
    sheet.doc.moveTo(x1, y1).bezierCurveTo(middle, y1, middle, y2, x2, y2);
    if (edge.weight > 0) sheet.doc.lineWidth(thick(edge.weight)).strokeColor('#b9cfdf').stroke();
    else sheet.doc.lineWidth(0.8).dash(2, { space: 2 }).strokeColor(ink.quiet).stroke().undash();
    const thin = thick(edge.weight) < type.small.size;
    return { text: sheet.set.printable.text(edge.label), thin, x: x2 - 3, y: y2 + 2.6 };
  });
}

/** Quantities beside the arrow's end; one that would lie on another is left to the table. */
function drawLabels(sheet: Sheet, labels: readonly EdgeLabel[]): void {
  const placed: EdgeLabel[] = [];
  for (const label of labels) {
    if (label.text === '') continue;
    if (placed.some((one) => Math.abs(one.x - label.x) < 50 && Math.abs(one.y - label.y) < 8.5)) continue;
    const width = sheet.set.width(label.text, type.small);
    if (label.thin) sheet.haloed(label.text, label.x - width, label.y, type.small);
    else sheet.line(label.text, label.x - width, label.y, type.small);
    placed.push(label);
  }
}

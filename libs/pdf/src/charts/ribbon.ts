import type { BatchRibbon } from '@furrowmark/reports';
import { ink, type } from '../paper.ts';
import type { Sheet } from '../sheet.ts';
import { drawBand } from './bands.ts';
import { drawFigure, figureHeight } from './figure.ts';
import { placeLabels, rowsOf, TimeAxis, type Label, type PlacedLabel } from './time-axis.ts';

const labelWidth = 74;
const rowHeight = 9.5;
const barHeight = 9;

/** The same words said again a few points further on say nothing more. */
const isNew = (label: Label, index: number, all: readonly Label[]): boolean =>
  !all.slice(0, index).some((before) => before.text === label.text && Math.abs(before.x - label.x) < 14);

interface LaidLane {
  readonly lane: BatchRibbon['lanes'][number];
  readonly labels: readonly PlacedLabel[];
  readonly height: number;
}

function layout(sheet: Sheet, ribbon: BatchRibbon): { axis: TimeAxis; lanes: readonly LaidLane[]; height: number } {
  const axis = new TimeAxis(ribbon.from, ribbon.to, ribbon.timeZone, sheet.left + labelWidth, sheet.right - 6);
  const lanes = ribbon.lanes.map((lane) => {
    const texts = [
      ...lane.spans.map((span) => ({ text: sheet.set.printable.text(span.label), x: axis.x(span.from) })),
      ...lane.marks.map((mark) => ({ text: sheet.set.printable.text(mark.label), x: axis.x(mark.at) })),
    ].filter((label) => label.text !== '');
    const labels = placeLabels(sheet, texts.filter(isNew), axis);
    return { lane, labels, height: rowsOf(labels) * rowHeight + barHeight + 8 };
  });
  return { axis, lanes, height: lanes.reduce((sum, { height }) => sum + height, 0) + 16 };
}

export const ribbonHeight = (sheet: Sheet, ribbon: BatchRibbon): number =>
  figureHeight(sheet, ribbon, layout(sheet, ribbon).height);

/** The whole life of a batch on true time, a lane for each thing that must happen in it. */
export function drawRibbon(sheet: Sheet, ribbon: BatchRibbon): void {
  const { axis, lanes, height } = layout(sheet, ribbon);
  drawFigure(sheet, ribbon, height, (top) => {
    const bottom = top + height - 16;
    axis.grid(sheet, top, bottom);
    let y = top;
    for (const lane of lanes) {
      drawLane(sheet, lane, axis, y);
      y += lane.height;
      sheet.rule(sheet.left, sheet.right, y, 0.4);
    }
    axis.labels(sheet, bottom + 11);
  });
}

function drawLane(sheet: Sheet, { lane, labels, height }: LaidLane, axis: TimeAxis, top: number): void {
  const { doc } = sheet;
  const bar = top + height - barHeight - 3;
  const name = sheet.set.wrap(sheet.set.printable.text(lane.label), type.smallStrong, labelWidth - 8);
  name.slice(0, 3).forEach((line, index) => {
    sheet.line(line, sheet.left, bar + 7.5 - (Math.min(name.length, 3) - 1 - index) * 9.5, type.smallStrong);
  });
  for (const span of lane.spans) {
    const x = axis.x(span.from);
    drawBand(doc, span.kind, x, bar, axis.x(span.to) - x, barHeight);
  }
  for (const mark of lane.marks) {
    const x = axis.x(mark.at);
    doc
      .polygon([x - 3, bar], [x + 3, bar], [x, bar + barHeight])
      .fillColor(ink.text)
      .fill();
  }
  for (const label of labels) {
    const baseline = bar - 3 - label.row * rowHeight;
    doc
      .moveTo(label.x, baseline - 6)
      .lineTo(label.x, bar)
      .lineWidth(0.5)
      .strokeColor(ink.quiet)
      .stroke();
    sheet.haloed(label.text, label.left, baseline, type.small);
  }
}

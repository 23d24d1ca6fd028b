import type { OxygenChart } from '@furrowmark/reports';
import { ink, type } from '../paper.ts';
import type { Sheet } from '../sheet.ts';
import { drawBand, type BandKind } from './bands.ts';
import { drawFigure, figureHeight } from './figure.ts';
import { placeLabels, rowsOf, TimeAxis, type PlacedLabel } from './time-axis.ts';

const plotHeight = 122;
const axisWidth = 58;
const laneHeight = 15;

type Band = OxygenChart['bands'][number];
const laneOf = { air: 'air', noAir: 'air', brew: 'brew', hold: 'hold' } as const satisfies Record<Band['kind'], string>;
type Lane = (typeof laneOf)[Band['kind']];
const laneOrder: readonly Lane[] = ['air', 'brew', 'hold'];

interface Layout {
  readonly axis: TimeAxis;
  readonly marks: readonly PlacedLabel[];
  readonly lanes: readonly { readonly lane: Lane; readonly bands: readonly Band[] }[];
  readonly height: number;
}

function layout(sheet: Sheet, chart: OxygenChart): Layout {
  const axis = new TimeAxis(chart.from, chart.to, chart.timeZone, sheet.left + axisWidth, sheet.right - 6);
  const text = (written: string): string => sheet.set.printable.text(written);
  const marks = placeLabels(
    sheet,
    chart.marks.map((mark) => ({ text: text(mark.label), x: axis.x(mark.at) })),
    axis,
  );
  const lanes = laneOrder
    .map((lane) => ({ lane, bands: chart.bands.filter((band) => laneOf[band.kind] === lane) }))
    .filter(({ bands }) => bands.length > 0);
  return { axis, marks, lanes, height: rowsOf(marks) * 10 + 6 + plotHeight + 18 + lanes.length * laneHeight + 4 };
}

export const oxygenHeight = (sheet: Sheet, chart: OxygenChart): number =>
  figureHeight(sheet, chart, layout(sheet, chart).height);

/** Oxygen against time, with the limit, the saturation, and what happened to the air. */
export function drawOxygen(sheet: Sheet, chart: OxygenChart): void {
  const { axis, marks, lanes, height } = layout(sheet, chart);
  drawFigure(sheet, chart, height, (top) => {
    const plotTop = top + rowsOf(marks) * 10 + 6;
    const plotBottom = plotTop + plotHeight;
    drawGround(sheet, chart, axis, plotTop, plotBottom);
    const rows = rowsOf(marks);
    for (const mark of marks) {
      const baseline = top + (rows - 1 - mark.row) * 10 + 8;
      sheet.doc.moveTo(mark.x, baseline - 6).lineTo(mark.x, plotBottom);
      sheet.doc.lineWidth(0.6).dash(1.5, { space: 1.5 }).strokeColor(ink.quiet).stroke().undash();
      sheet.haloed(mark.text, mark.left, baseline, type.small);
    }
    drawCurves(sheet, chart, axis, plotTop, plotBottom);
    axis.labels(sheet, plotBottom + 10);
    lanes.forEach(({ lane, bands }, index) => {
      const y = plotBottom + 18 + index * laneHeight;
      sheet.line(sheet.words.lanes[lane], sheet.left, y + 6, type.small, { color: ink.quiet });
      drawLane(sheet, bands, axis, y, sheet.words.lanes[lane]);
    });
  });
}

function drawLane(sheet: Sheet, bands: readonly Band[], axis: TimeAxis, y: number, name: string): void {
  for (const band of bands) {
    const x = axis.x(band.from);
    const width = axis.x(band.to) - x;
    const kind: BandKind = band.kind;
    drawBand(sheet.doc, kind, x, y, width, 6);
    const label = sheet.set.printable.text(band.label);
    const textWidth = sheet.set.width(label, type.small);
    if (label === name || textWidth + 12 > width) continue;
    sheet.haloed(label, x + 8, y + 6, type.small);
  }
}

/** The top of the scale in mg/L: an even number above everything shown. */
function ceilingOf(chart: OxygenChart): number {
  let highest = Math.max(8, chart.limitMgPerL ?? 0);
  for (const reading of chart.readings) highest = Math.max(highest, reading.mgPerL, reading.saturationMgPerL ?? 0);
  return Math.ceil((highest + 1) / 2) * 2;
}

function drawGround(sheet: Sheet, chart: OxygenChart, axis: TimeAxis, top: number, bottom: number): void {
  const { doc } = sheet;
  const ceiling = ceilingOf(chart);
  const step = ceiling > 16 ? 4 : 2;
  const y = (mgPerL: number): number => bottom - ((bottom - top) * mgPerL) / ceiling;
  if (chart.limitMgPerL !== null) {
    doc.rect(axis.left, y(chart.limitMgPerL), axis.right - axis.left, bottom - y(chart.limitMgPerL));
    doc.fillColor(ink.tint).fill();
  }
  axis.grid(sheet, top, bottom);
  for (let value = 0; value <= ceiling; value += step) {
    sheet.rule(axis.left, axis.right, y(value), value === 0 ? 0.8 : 0.25, value === 0 ? ink.text : ink.rule);
    sheet.line(String(value), axis.left - 18, y(value) + 2.6, type.small, {
      align: 'right',
      width: 12,
      color: ink.quiet,
    });
  }
  doc.save().rotate(-90, { origin: [sheet.left + 30, bottom] });
  sheet.line(sheet.words.oxygen, sheet.left + 30, bottom, type.small, { color: ink.quiet });
  doc.restore();
}

function drawCurves(sheet: Sheet, chart: OxygenChart, axis: TimeAxis, top: number, bottom: number): void {
  const ceiling = ceilingOf(chart);
  const y = (mgPerL: number): number => bottom - ((bottom - top) * mgPerL) / ceiling;
  drawSaturation(sheet, chart, axis, y);
  if (chart.limitMgPerL !== null) {
    const limit = y(chart.limitMgPerL);
    sheet.rule(axis.left, axis.right, limit, 1.1, ink.text);
    sheet.haloed(`${sheet.words.limit} ${chart.limitMgPerL}`, axis.left + 4, limit + 9, type.smallStrong);
  }
  drawReadings(sheet, chart, axis, y);
}

function drawSaturation(sheet: Sheet, chart: OxygenChart, axis: TimeAxis, y: (mgPerL: number) => number): void {
  const points = chart.readings.flatMap(({ at, saturationMgPerL }) =>
    saturationMgPerL === undefined ? [] : [{ x: axis.x(at), y: y(saturationMgPerL) }],
  );
  const [first] = points;
  const last = points.at(-1);
  if (first === undefined || last === undefined) return;
  sheet.doc.moveTo(first.x, first.y);
  for (const point of points.slice(1)) sheet.doc.lineTo(point.x, point.y);
  sheet.doc.lineWidth(0.9).dash(4, { space: 2.5 }).strokeColor(ink.quiet).stroke().undash();
  const width = sheet.set.width(sheet.words.saturation, type.small);
  sheet.haloed(sheet.words.saturation, Math.min(last.x - width, axis.right - width), last.y - 4, type.small, ink.quiet);
}

function drawReadings(sheet: Sheet, chart: OxygenChart, axis: TimeAxis, y: (mgPerL: number) => number): void {
  const { doc } = sheet;
  const points = chart.readings.map(({ at, mgPerL, label }) => ({
    x: axis.x(at),
    y: y(mgPerL),
    text: sheet.set.printable.text(label ?? String(mgPerL)),
  }));
  const [first] = points;
  if (first === undefined) return;
  doc.moveTo(first.x, first.y);
  for (const point of points.slice(1)) doc.lineTo(point.x, point.y);
  doc.lineWidth(1.3).strokeColor(ink.blue).stroke();
  let end = -Infinity;
  for (const point of points) {
    doc.circle(point.x, point.y, 2.4).fillColor(ink.blue).fill();
    const width = sheet.set.width(point.text, type.smallStrong);
    const left = Math.max(axis.left, Math.min(point.x - width / 2, axis.right - width));
    if (left < end + 3) continue;
    sheet.haloed(point.text, left, point.y - 5, type.smallStrong);
    end = left + width;
  }
}

import { axisTicks, type Tick } from '@furrowmark/reports';
import { ink, type } from '../paper.ts';
import type { Sheet } from '../sheet.ts';

/** True time on the page: equal lengths are equal hours. */
export class TimeAxis {
  readonly from: number;
  readonly to: number;
  readonly left: number;
  readonly right: number;
  readonly ticks: readonly Tick[];

  constructor(from: number, to: number, timeZone: string, left: number, right: number) {
    this.from = from;
    this.to = Math.max(to, from + 60_000);
    this.left = left;
    this.right = right;
    this.ticks = axisTicks(this.from, this.to, timeZone, Math.floor((right - left) / 50));
  }

  x(at: number): number {
    const inside = Math.min(Math.max(at, this.from), this.to);
    return this.left + ((this.right - this.left) * (inside - this.from)) / (this.to - this.from);
  }

  /** Fine vertical lines behind a picture, heavier at midnight. */
  grid(sheet: Sheet, top: number, bottom: number): void {
    for (const tick of this.ticks) {
      const x = this.x(tick.at);
      sheet.doc
        .moveTo(x, top)
        .lineTo(x, bottom)
        .lineWidth(tick.isDay ? 0.7 : 0.3);
      sheet.doc.strokeColor(tick.isDay ? ink.faint : ink.rule).stroke();
    }
  }

  /** Clock times, and the date at each midnight. */
  labels(sheet: Sheet, baseline: number): void {
    for (const tick of this.ticks) {
      const style = tick.isDay ? type.smallStrong : type.small;
      const width = sheet.set.width(tick.label, style);
      const x = Math.min(Math.max(this.x(tick.at) - width / 2, this.left - 8), this.right + 8 - width);
      sheet.line(tick.label, x, baseline, style, { color: tick.isDay ? ink.text : ink.quiet });
    }
  }
}

export interface Label {
  readonly text: string;
  readonly x: number;
}
export interface PlacedLabel extends Label {
  readonly left: number;
  readonly row: number;
}

/** Puts labels into as few rows as keep them apart, each near its own moment and inside the picture. */
export function placeLabels(sheet: Sheet, labels: readonly Label[], axis: TimeAxis): PlacedLabel[] {
  // From right to left: the stroke that leads down from a label in an upper row then passes left of the texts below it.
  const starts: number[] = [];
  return labels
    .toSorted((a, b) => b.x - a.x)
    .map((label) => {
      const width = sheet.set.width(label.text, type.small);
      const fits = label.x + 2 + width <= axis.right;
      const left = Math.max(axis.left, fits ? label.x + 2 : label.x - 2 - width);
      const free = starts.findIndex((start) => left + width + 5 <= start);
      const row = free === -1 ? starts.length : free;
      starts[row] = left;
      return { ...label, left, row };
    });
}
export const rowsOf = (placed: readonly PlacedLabel[]): number => Math.max(0, ...placed.map(({ row }) => row + 1));

import type { Block } from '@furrowmark/reports';
import { ink, type } from '../paper.ts';
import type { Sheet } from '../sheet.ts';
import { drawText } from './text.ts';

type Blank = Extract<Block, { kind: 'blank' }>;

/** Lines to write or sign on, with what belongs there. */
export function drawBlank(sheet: Sheet, blank: Blank): void {
  const height = 26 * blank.lines;
  sheet.need(height + type.small.leading + 6);
  for (let line = 0; line < blank.lines; line += 1) {
    sheet.y += 26;
    sheet.artifact('Layout', () => {
      sheet.rule(sheet.left, sheet.left + Math.min(sheet.width, 320), sheet.y, 0.6, ink.faint);
    });
  }
  sheet.y += 1.5;
  drawText(sheet, sheet.root, 'P', blank.label, type.small, { color: ink.quiet });
  sheet.y += 6;
}

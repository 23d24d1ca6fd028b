import type { Block } from '@furrowmark/reports';
import { ink, type } from '../paper.ts';
import type { Sheet } from '../sheet.ts';
import { drawText } from './text.ts';

type Blank = Extract<Block, { kind: 'blank' }>;

/** Points from one line to the next, and between a line and what is said under it. */
const [step, gap] = [26, 1.5];

/** Points that blanks take which stand together: a name, its date and the like are not torn apart. */
export function blanksHeight(blocks: readonly Block[], index: number): number {
  const block = blocks[index];
  if (block?.kind !== 'blank') return 0;
  return step * block.lines + gap + type.small.leading + 6 + blanksHeight(blocks, index + 1);
}

/** Lines to write or sign on, with what belongs there. */
export function drawBlank(sheet: Sheet, blank: Blank): void {
  for (let line = 0; line < blank.lines; line += 1) {
    sheet.y += step;
    sheet.artifact('Layout', () => {
      sheet.rule(sheet.left, sheet.left + Math.min(sheet.width, 320), sheet.y, 0.6, ink.faint);
    });
  }
  sheet.y += gap;
  drawText(sheet, sheet.root, 'P', blank.label, type.small, { color: ink.quiet });
  sheet.y += 6;
}

import { type } from '../paper.ts';
import type { Sheet } from '../sheet.ts';
import { drawText, textHeight } from '../blocks/text.ts';

interface Described {
  readonly title: string;
  readonly description: string;
}

export const figureHeight = (sheet: Sheet, chart: Described, height: number): number =>
  textHeight(sheet, chart.title, type.h3) + 4 + height + 12;

/** A picture with its title; what it shows is said in words as its alternative text. */
export function drawFigure(sheet: Sheet, chart: Described, height: number, draw: (top: number) => void): void {
  sheet.need(figureHeight(sheet, chart, height));
  drawText(sheet, sheet.root, 'P', chart.title, type.h3);
  sheet.y += 4;
  const top = sheet.y;
  sheet.tagged(
    sheet.root,
    'Figure',
    () => {
      draw(top);
    },
    { alt: chart.description, bbox: [sheet.left, top, sheet.right, top + height], placement: 'Block' },
  );
  sheet.y = top + height + 12;
}

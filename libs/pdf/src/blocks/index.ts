import type { Block } from '@furrowmark/reports';
import { drawFlow, flowHeight } from '../charts/flow.ts';
import { drawOxygen, oxygenHeight } from '../charts/oxygen.ts';
import { drawRibbon, ribbonHeight } from '../charts/ribbon.ts';
import type { Sheet } from '../sheet.ts';
import { type } from '../paper.ts';
import { blanksHeight, drawBlank } from './blank.ts';
import { leastTableWidth } from './columns.ts';
import { drawFacts } from './facts.ts';
import { drawHeading, headingHeight, type Outline } from './heading.ts';
import { drawNote, noteHeight } from './note.ts';
import { drawQrCode, qrCodeHeight } from './qr-code.ts';
import { TableDrawer } from './table.ts';
import { drawParagraph, paragraphHeight } from './text.ts';
import { drawVerdicts, firstVerdictHeight } from './verdicts.ts';

/** Points that the beginning of a block needs to stand below its heading. */
function openingHeight(sheet: Sheet, blocks: readonly Block[], index: number): number {
  const block = blocks[index];
  switch (block?.kind) {
    case 'heading':
      return headingHeight(sheet, block) + openingHeight(sheet, blocks, index + 1);
    case 'paragraph':
      // What introduces a table or a list goes where it goes.
      return paragraphHeight(sheet, block.text) + openingHeight(sheet, blocks, index + 1);
    case 'note':
      return noteHeight(sheet, block);
    case 'table':
      return block.rows.length === 0
        ? 30
        : new TableDrawer(sheet, block, blanksHeight(blocks, index + 1)).openingHeight();
    case 'oxygenChart':
      return oxygenHeight(sheet, block);
    case 'batchRibbon':
      return ribbonHeight(sheet, block);
    case 'traceFlow':
      return flowHeight(sheet, block);
    case 'verdicts':
      return firstVerdictHeight(sheet, block.items);
    case 'blank':
      return blanksHeight(blocks, index);
    case 'qrCode':
      return qrCodeHeight(sheet, block);
    case 'facts':
      return type.body.leading * 2;
    case 'pageBreak':
    case undefined:
      return 0;
  }
}

/** Blocks up to the next page break want one orientation: lying, if a table would otherwise have to cut its words. */
function wantsLandscape(sheet: Sheet, blocks: readonly Block[]): boolean {
  return blocks.some((block) => block.kind === 'table' && leastTableWidth(sheet, block) > sheet.widthFor(false));
}

/** The orientation of each run of blocks between page breaks, in order. */
export function orientations(sheet: Sheet, blocks: readonly Block[]): boolean[] {
  const runs: Block[][] = [[]];
  for (const block of blocks) {
    if (block.kind === 'pageBreak') runs.push([]);
    else runs.at(-1)?.push(block);
  }
  return runs.map((run) => wantsLandscape(sheet, run));
}

/** What a block counts for in how much is set: a line for each row of a table, one for anything else. */
const weight = (block: Block): number => (block.kind === 'table' ? block.rows.length + 1 : 1);

/** The part that begins after a page break: its heading stands at the head of each of its pages. */
function partAt(blocks: readonly Block[], index: number): string | undefined {
  const block = blocks[index];
  return block?.kind === 'heading' && block.level === 1 ? block.text : undefined;
}

/** Draws all blocks; yields whenever pages may have been finished, and gives how much is set, from 0 to 1. */
export function* drawBlocks(
  sheet: Sheet,
  blocks: readonly Block[],
  outline: Outline,
  runs: boolean[],
): Generator<number> {
  const all = blocks.reduce((sum, block) => sum + weight(block), 0);
  let run = 0;
  let done = 0;
  for (const [index, block] of blocks.entries()) {
    switch (block.kind) {
      case 'heading':
        drawHeading(sheet, block, outline, openingHeight(sheet, blocks, index + 1));
        break;
      case 'paragraph':
        drawParagraph(sheet, block.text);
        break;
      case 'note':
        drawNote(sheet, block);
        break;
      case 'facts':
        drawFacts(sheet, block);
        break;
      case 'table':
        for (const rows of new TableDrawer(sheet, block, blanksHeight(blocks, index + 1)).draw())
          yield (done + rows) / all;
        break;
      case 'verdicts':
        drawVerdicts(sheet, block.items);
        break;
      case 'oxygenChart':
        drawOxygen(sheet, block);
        break;
      case 'batchRibbon':
        drawRibbon(sheet, block);
        break;
      case 'traceFlow':
        drawFlow(sheet, block);
        break;
      case 'blank':
        sheet.need(blanksHeight(blocks, index));
        drawBlank(sheet, block);
        break;
      case 'qrCode':
        drawQrCode(sheet, block);
        break;
      case 'pageBreak':
        run += 1;
        sheet.part = partAt(blocks, index + 1);
        if (index < blocks.length - 1) sheet.newPage(runs[run] ?? false);
        break;
    }
    done += weight(block);
    yield done / all;
  }
}

import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { z } from 'zod';
import { inTurn, spreadOf, type Extent, type Row } from '../measure.ts';

const exec = promisify(execFile);
const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const told = z.object({ ms: z.number(), pages: z.number(), bytes: z.number(), most: z.number(), grown: z.number() });

/** A long report beside the same text set by the bare PDF library. */
export async function reportingRows({ mode, rounds }: Extent): Promise<Row[]> {
  const lines = mode === 'quick' ? 100 : mode === 'long' ? 40_000 : 8_000;
  const memory: Record<'ours' | 'bare', number[]> = { ours: [], bare: [] };
  const pages = { ours: 0, bare: 0 };
  const side = async (which: 'ours' | 'bare'): Promise<number> => {
    const script = [here('../../../apps/api/register.mjs'), here('../typesetting.ts')] as const;
    const { stdout } = await exec(process.execPath, ['--import', script[0], script[1], which, String(lines)]);
    const { ms, most, pages: printed } = told.parse(JSON.parse(stdout));
    memory[which].push(most);
    pages[which] = printed;
    return (lines / ms) * 1000;
  };
  const set = await inTurn(
    Math.min(rounds, 3),
    () => side('ours'),
    () => side('bare'),
    0,
  );
  const ratio = spreadOf(memory.ours.map((mb, i) => mb / (memory.bare[i] ?? NaN)));
  return [
    {
      work: `long report: a table of ${lines} lines, ${pages.ours} pages, tagged and archival`,
      beside: `bare pdfkit, same text and face, ${pages.bare} pages, neither tagged nor archival`,
      unit: 'lines/s',
      ...set,
      aim: '≥ 0.8',
      reached: set.ratio.median >= 0.8,
    },
    {
      work: 'the same, most memory of the process',
      beside: 'bare pdfkit',
      unit: 'MB',
      ...{ ours: spreadOf(memory.ours), peer: spreadOf(memory.bare), ratio },
      aim: '≤ 1.2 ×',
      reached: ratio.median <= 1.2,
    },
  ];
}

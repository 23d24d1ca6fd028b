import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { z } from 'zod';
import { inTurn, spreadOf, type Extent, type Row, type Spread } from '../measure.ts';

const exec = promisify(execFile);
const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const told = z.object({ ms: z.number(), pages: z.number(), bytes: z.number(), most: z.number(), grown: z.number() });

/** Our typesetter, the bare library, and the bare library with a tag for each cell. */
type Side = 'ours' | 'bare' | 'tagged';

/** A long report beside the same text set by the bare PDF library. */
export async function reportingRows({ mode, rounds }: Extent): Promise<Row[]> {
  const lines = mode === 'quick' ? 100 : mode === 'long' ? 40_000 : 8_000;
  const memory: Record<Side, number[]> = { ours: [], bare: [], tagged: [] };
  const pages = { ours: 0, bare: 0, tagged: 0 };
  const side = async (which: Side): Promise<number> => {
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
  for (let round = 0; round < Math.min(rounds, 3); round += 1) await side('tagged');
  const times = (peer: Side): Spread => spreadOf(memory.ours.map((mb, i) => mb / (memory[peer][i] ?? NaN)));
  const [ratio, untagged] = [times('tagged'), times('bare')];
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
      beside: 'bare pdfkit with the same tags',
      unit: 'MB',
      ...{ ours: spreadOf(memory.ours), peer: spreadOf(memory.tagged), ratio },
      aim: '≤ 1.2 ×',
      reached: ratio.median <= 1.2,
      remark: `${untagged.median.toFixed(2)} (${untagged.least.toFixed(2)} to ${untagged.most.toFixed(2)}) times bare pdfkit without tags`,
    },
  ];
}

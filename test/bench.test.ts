import { describe, expect, it } from '@jest/globals';
import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { z } from 'zod';
import { inTurn, quantile, spreadOf } from './bench/measure.ts';

const spread = z.object({ median: z.number().positive(), least: z.number(), most: z.number() });
const report = z.object({
  machine: z.object({ cores: z.number() }),
  versions: z.object({ node: z.string() }),
  rows: z.array(z.object({ work: z.string(), ours: spread, peer: spread.nullable(), ratio: spread.nullable() })),
});

describe('the measuring program', () => {
  it('runs every row and writes what it found; it does not say here that anything is fast', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'furrowmark-bench-out-'));
    try {
      const out = join(folder, 'bench.json');
      const program = join(import.meta.dirname, 'bench', 'run.mjs');
      const { stdout } = await promisify(execFile)(process.execPath, [program, '--quick', '--out', out]);
      const { rows, versions } = report.parse(JSON.parse(readFileSync(out, 'utf8')));
      expect(versions.node).toMatch(/^v24\./);
      for (const word of [
        ...[
          'one writer',
          '8 writers',
          'single records',
          'the same in an operation of',
          'trace of a lot',
          "a batch's page",
        ],
        ...['verify an export', 'rebuild', 'cold start', 'at rest', 'the most during', 'judge a batch', 'judged again'],
        ...['preview', 'long report', 'most memory of the process'],
      ]) {
        expect(rows.map(({ work }) => work)).toContainEqual(expect.stringContaining(word));
        expect(stdout).toContain(word);
      }
      // What the brief table of aims compares is compared in the same run.
      for (const { peer, ratio } of rows) expect(ratio === null).toBe(peer === null);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }, 180_000);

  it('takes both sides in turn and the median of the rounds, not of the sides', async () => {
    const order: string[] = [];
    const side = (name: string, values: readonly number[]) => (round: number) => {
      order.push(`${name}${round}`);
      return Promise.resolve(values[round] ?? NaN);
    };
    const { ratio, ours } = await inTurn(3, side('a', [9, 1, 4, 9]), side('b', [9, 1, 2, 3]));
    expect(order).toEqual(['a0', 'b0', 'a1', 'b1', 'a2', 'b2', 'a3', 'b3']);
    // 1/1, 4/2, 9/3; the first round only warms up.
    expect(ratio).toEqual({ median: 2, least: 1, most: 3 });
    expect(ours).toEqual({ median: 4, least: 1, most: 9 });
  });

  it('quantiles lie between neighbours: the median of 1, 2, 4, 8 is 3', () => {
    expect(spreadOf([8, 1, 4, 2]).median).toBe(3);
    expect(quantile([10, 20, 30], 0.25)).toBe(15);
  });
});

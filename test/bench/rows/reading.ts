import { z } from 'zod';
import { inTurn, quantile, timed, type Extent, type Row } from '../measure.ts';
import { lotsUsed, season } from '../records.ts';
import type { Served } from '../served.ts';

type Kind = 'trace' | 'balance' | 'page';
const listed = z.object({ batches: z.array(z.object({ batchId: z.string() })) });
const traced = z.object({ nodes: z.array(z.unknown()) });

const forward = `
  WITH RECURSIVE reached (kind, id) AS (
    VALUES ('lot', $2::text)
    UNION
    SELECT e.to_kind, e.to_id FROM trace_edge e JOIN reached r ON e.from_id = r.id AND e.from_kind = r.kind
     WHERE e.operation_id = $1
  )
  SELECT e.from_kind, e.from_id, e.to_kind, e.to_id, e.record_id, e.quantity
    FROM trace_edge e JOIN reached r ON e.from_id = r.id AND e.from_kind = r.kind WHERE e.operation_id = $1`;

/** Received, used and disposed of each lot, summed from the log as it is written; units as each record gives them. */
const balance = `
  SELECT d->>'lotId' AS lot, type, d->'quantity'->>'unit' AS unit, sum((d->'quantity'->>'value')::numeric) AS amount
    FROM (SELECT type, convert_from(bytes, 'UTF8')::jsonb->'data' AS d FROM log_entry
           WHERE operation_id = $1
             AND type IN ('lot.received', 'batch.ingredientAdded', 'batch.neutralizerAdded', 'lot.disposed', 'lot.counted')) AS used
   GROUP BY 1, 2, 3`;

/** A lot's trace, the mass balance and a batch's page in a large operation, over HTTP. */
export async function readingRows(served: Served, { mode, rounds }: Extent): Promise<Row[]> {
  const size = mode === 'quick' ? 400 : mode === 'long' ? 100_000 : 10_000;
  const times = mode === 'quick' ? 3 : 20;
  const records = season(size);
  const operation = await served.operation(records);
  // Settles what the appends left, so that the edges which the peer reads are there.
  const { batches } = listed.parse(JSON.parse(await served.ask('GET', `/operations/${operation}/batches?limit=1000`)));
  await served.pool.query('ANALYZE');
  const [lot, batch] = [lotsUsed(records).at(-1), batches[Math.floor(batches.length / 2)]?.batchId];
  if (lot === undefined || batch === undefined) throw new Error('the season has no lot or no batch');
  const { nodes } = traced.parse(
    JSON.parse(await served.ask('GET', `/operations/${operation}/lots/${lot}/trace?direction=forward`)),
  );

  /** Each single time over HTTP. */
  const single: Record<Kind, number[]> = { trace: [], balance: [], page: [] };
  const over = async (kind: Kind, path: string): Promise<number> => {
    const took: number[] = [];
    for (let n = 0; n < times; n += 1) took.push(await timed(async () => JSON.parse(await served.ask('GET', path))));
    single[kind].push(...took);
    return quantile(
      took.toSorted((a, b) => a - b),
      0.5,
    );
  };
  /** Without HTTP, as the peer is; over HTTP in the same round. */
  const within = async (kind: 'trace' | 'page', id: string, path: string): Promise<number> => {
    const took: number[] = [];
    for (let n = 0; n < times; n += 1) took.push(await served.timed({ do: kind, operationId: operation, id }));
    await over(kind, path);
    return quantile(
      took.toSorted((a, b) => a - b),
      0.5,
    );
  };
  const bare = async (
    text: string,
    values: unknown[],
    read: (rows: { bytes: Buffer }[]) => unknown,
  ): Promise<number> => {
    const took: number[] = [];
    for (let n = 0; n < times; n += 1)
      took.push(
        await timed(async () => read((await served.pool.query({ name: text.slice(0, 40), text, values })).rows)),
      );
    return quantile(
      took.toSorted((a, b) => a - b),
      0.5,
    );
  };
  const traces = await inTurn(
    rounds,
    () => within('trace', lot, `/operations/${operation}/lots/${lot}/trace?direction=forward`),
    () => bare(forward, [operation, lot], (rows) => rows.length),
  );
  const balances = await inTurn(
    rounds,
    () => over('balance', `/operations/${operation}/reports/mass-balance`),
    () => bare(balance, [operation], (rows) => rows.length),
  );
  const pages = await inTurn(
    rounds,
    () => within('page', batch, `/operations/${operation}/batches/${batch}`),
    () =>
      bare(
        `SELECT e.bytes FROM mention m JOIN log_entry e USING (operation_id, seq)
          WHERE m.operation_id = $1 AND m.subject_id = $2 ORDER BY m.seq`,
        [operation, batch],
        (rows) => rows.map(({ bytes }) => JSON.parse(bytes.toString('utf8'))),
      ),
  );
  const overHttp = (kind: Kind, share: number): number =>
    quantile(
      single[kind].toSorted((a, b) => a - b),
      share,
    );
  const p95 = (kind: Kind): number => overHttp(kind, 0.95);
  const told = (kind: Kind): string =>
    `over HTTP ${overHttp(kind, 0.5).toFixed(1)} ms, 95th percentile ${p95(kind).toFixed(1)}`;
  return [
    {
      work: `trace of a lot through ${nodes.length} things, operation of ${size} records, in process`,
      beside: 'hand-written recursive SQL over the edges',
      unit: 'ms',
      ...traces,
      aim: '≤ 1.5 ×, 95th percentile over HTTP < 20 ms',
      reached: traces.ratio.median <= 1.5 && p95('trace') < 20,
      remark: `${told('trace')} ms; shares, codes and what was reached are in the answer, only edges in the peer's`,
    },
    {
      work: `mass balance of everything, operation of ${size} records, over HTTP`,
      beside: 'hand-written SQL: sums by lot over the log as it is written',
      unit: 'ms',
      ...balances,
      aim: '≤ 1.5 ×, 95th percentile < 20 ms',
      reached: balances.ratio.median <= 1.5 && p95('balance') < 20,
      remark: `95th percentile ${p95('balance').toFixed(1)} ms; ours has lots, tea and harvests in each lot's own unit, the peer only sums`,
    },
    {
      work: `a batch's page: facts, judged, timeline, operation of ${size} records, in process`,
      beside: 'bare select and parse of the records about it',
      unit: 'ms',
      ...pages,
      aim: '≤ 2 ×, 95th percentile over HTTP < 20 ms',
      reached: pages.ratio.median <= 2 && p95('page') < 20,
      remark: `${told('page')} ms; the peer computes and judges nothing`,
    },
  ];
}

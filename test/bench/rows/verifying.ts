import { createHash, hash } from 'node:crypto';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import canonicalize from 'canonicalize';
import { linesOf } from '@furrowmark/log';
import { openTar, run } from '@furrowmark/verify';
import { inTurn, timed, type Extent, type Row } from '../measure.ts';
import { season } from '../records.ts';
import type { Served } from '../served.ts';

/** The offline verifier on an exported archive, and `rebuild`, beside the plainest that could do it. */
export async function verifyingRows(served: Served, folder: string, { mode, rounds }: Extent): Promise<Row[]> {
  const size = mode === 'quick' ? 200 : mode === 'long' ? 100_000 : 20_000;
  const operation = await served.operation(season(size));
  const path = join(folder, 'archive.tar');
  await writeFile(path, await served.bytes('GET', `/operations/${operation}/export`));
  const keyFile = join(folder, 'key');
  await writeFile(keyFile, await served.bytes('GET', `/operations/${operation}/log/key`));
  const keptFile = join(folder, 'kept-checkpoint');
  await writeFile(keptFile, await served.bytes('GET', `/operations/${operation}/log/checkpoint`));
  const entries = size + 1;
  const perSecond = (ms: number): number => (entries / ms) * 1000;
  const verified = await inTurn(
    rounds,
    async () =>
      perSecond(
        await timed(async () => {
          const { code, output } = await run([path, '--key', keyFile, '--against', keptFile], Date.now());
          if (code !== 0) throw new Error(`the export does not verify: ${output}`);
        }),
      ),
    async () => perSecond(await timed(() => plainest(path, entries))),
  );
  await served.rebuild(operation);
  await served.pool.query('CREATE TABLE IF NOT EXISTS log_copy (LIKE log_entry INCLUDING INDEXES)');
  const rebuilt = await inTurn(
    Math.min(rounds, 2),
    async () => perSecond(await served.rebuild(operation)),
    async () => {
      await served.pool.query('TRUNCATE log_copy');
      return perSecond(await timed(() => copied(served, operation)));
    },
    0,
  );
  return [
    {
      work: `verify an export of ${entries} entries, one core`,
      beside: 'JSON.parse, npm canonicalize, compare, hash and tree of the same bytes',
      unit: 'entries/s',
      ...verified,
      aim: '≥ 1.0',
      reached: verified.ratio.median >= 1,
    },
    {
      work: `rebuild: everything computed anew from ${entries} entries and compared`,
      beside: 'bare copy of the log through a client into a table like it',
      unit: 'entries/s',
      ...rebuilt,
      aim: '≥ 0.3',
      reached: rebuilt.ratio.median >= 0.3,
    },
  ];
}

/** What a stranger would write in ten lines: no seals, no time order, no signature. */
async function plainest(path: string, entries: number): Promise<void> {
  await readFile(path);
  const archive = await openTar(path);
  let level: Buffer[] = [];
  for await (const line of linesOf(archive.read('entries.ndjson'))) {
    const text = Buffer.from(line).toString('utf8');
    if (canonicalize(JSON.parse(text)) !== text) throw new Error('not canonical');
    level.push(createHash('sha256').update(zero).update(line).digest());
  }
  if (level.length !== entries) throw new Error(`${level.length} entries instead of ${entries}`);
  while (level.length > 1) {
    const above: Buffer[] = [];
    for (let i = 0; i < level.length; i += 2) {
      const [left, right] = [level[i] ?? zero, level[i + 1]];
      above.push(right === undefined ? left : hash('sha256', Buffer.concat([one, left, right]), 'buffer'));
    }
    level = above;
  }
}
const [zero, one] = [Buffer.from([0]), Buffer.from([1])];

async function copied(served: Served, operation: string): Promise<void> {
  for (let from = 0; ; from += 5_000) {
    const { rows } = await served.pool.query(
      'SELECT * FROM log_entry WHERE operation_id = $1 AND seq >= $2 AND seq < $3 ORDER BY seq',
      [operation, from, from + 5_000],
    );
    if (rows.length === 0) return;
    const column = (name: string): unknown[] => rows.map((row: Record<string, unknown>) => row[name]);
    const names = ['seq', 'record_id', 'type', 'occurred_at', 'recorded_at', 'leaf_hash', 'bytes'];
    await served.pool.query(
      `INSERT INTO log_copy (operation_id, ${names.join(', ')})
       SELECT $1, * FROM unnest($2::bigint[], $3::uuid[], $4::text[], $5::timestamptz[], $6::timestamptz[], $7::bytea[], $8::bytea[])`,
      [operation, ...names.map(column)],
    );
  }
}

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { randomUUID } from 'node:crypto';
import { DataSource } from 'typeorm';
import { Rebuild } from '../apps/api/src/archive/index.ts';
import { testDatabase } from './support/database.ts';
import { note, TestService, type TestOperation } from './support/service.ts';

/*
 * What is kept beside the log follows from the log: computed anew it is the same, and where somebody changed it, it is put
 * back. The log itself is never touched.
 */
let service: TestService;
let owner: DataSource;
let op: TestOperation;
const at = '2026-06-03T06:10:00-05:00';
const id = (n: number): string => `01976f00-0000-7000-8000-${String(n).padStart(12, '0')}`;
let made = 0;
const record = (type: string, data: object) => ({
  ...{ id: id((made += 1) + 900_000), type, version: 1, occurredAt: at, data },
});

beforeAll(async () => {
  service = await TestService.start();
  const { databaseUrl } = await testDatabase();
  const url = databaseUrl ?? service.service.database.embedded?.ownerUrl ?? '';
  owner = await new DataSource({ type: 'postgres', url, extra: { max: 1 } }).initialize();
  await owner.query('SET session_replication_role = replica');
  op = await service.operation();
  const vesselId = id(1);
  const volume = { value: 250, unit: '[gal_us]' };
  const records = [
    record('source.registered', { sourceId: id(2), code: 'Well', kind: 'well', disinfectant: 'none' }),
    record('vessel.registered', {
      ...{ vesselId, code: 'T1', totalVolume: volume, workingVolume: volume, previousContents: 'none' },
    }),
    ...[11, 12, 13].flatMap((n) => [
      record('batch.opened', { batchId: id(n), code: `T-${n}`, kind: 'aeratedTea', vesselId }),
      record('batch.filled', { batchId: id(n), sourceId: id(2), volume: { value: 200, unit: '[gal_us]' } }),
      record('batch.ingredientAdded', { batchId: id(n), lotId: id(30), quantity: { value: 5, unit: '[lb_av]' } }),
    ]),
    note('looked at it'),
  ];
  const appended = await service.append(op.operationId, op.tokens.manager, records);
  expect(appended.json.results.filter((each: { status: string }) => each.status !== 'recorded')).toEqual([]);
}, 60_000);
afterAll(async () => {
  await owner.destroy();
  await service.close();
});

const rebuild = (mend: boolean) => service.service.context.get(Rebuild).run(op.operationId, { mend });
const rows = (table: string): Promise<unknown[]> =>
  owner.query(`SELECT to_jsonb(t) - 'as_of_seq' AS row FROM ${table} t WHERE operation_id = $1 ORDER BY 1`, [
    op.operationId,
  ]);

describe('rebuild', () => {
  it('finds nothing different after records came in portions: what was written on the way is what a fresh fold gives', async () => {
    const found = await rebuild(false);
    expect(found).toMatchObject({ different: [], indexes: [] });
    // Three brews, and the batch that the note names.
    expect(found.batches).toBeGreaterThanOrEqual(3);
    for (let i = 0; i < 5; i += 1) await service.append(op.operationId, op.tokens.recorder, [note(`again ${i}`)]);
    expect(await rebuild(false)).toMatchObject({ different: [], indexes: [], size: found.size + 5 });
  });

  it.each([
    ['only compares', false],
    ['mends', true],
  ])(
    'finds nothing different while records arrive: it %s',
    async (_, mend) => {
      const busy = await service.operation();
      const vesselId = randomUUID();
      // Its own description is the first record.
      let recorded = 1;
      let going = true;
      const more = async (): Promise<void> => {
        while (going) {
          const batchId = randomUUID();
          const { json } = await service.append(busy.operationId, busy.tokens.recorder, [
            {
              ...record('batch.opened', { batchId, code: `T-${batchId}`, kind: 'aeratedTea', vesselId }),
              id: randomUUID(),
            },
            note('looked at it', { data: { batchId, note: 'looked at it' } }),
          ]);
          recorded += json.results.filter(({ status }: { status: string }) => status === 'recorded').length;
        }
      };
      const phones = [more(), more(), more()];
      try {
        for (let i = 0; i < 6; i += 1) {
          const before = recorded;
          const found = await service.service.context.get(Rebuild).run(busy.operationId, { mend });
          expect(found).toMatchObject({ different: [], indexes: [] });
          expect(found.size).toBeGreaterThanOrEqual(before);
        }
      } finally {
        going = false;
        await Promise.all(phones);
      }
      expect(recorded).toBeGreaterThan(10);
      expect(await service.service.context.get(Rebuild).run(busy.operationId, { mend: false })).toMatchObject({
        ...{ different: [], indexes: [], size: recorded },
      });
    },
    60_000,
  );

  it.each([
    [
      'facts edited',
      `UPDATE batch_facts SET facts = '{}' WHERE batch_id = '${id(11)}'`,
      `batch ${id(11)}: was kept otherwise`,
    ],
    ['facts taken away', `DELETE FROM batch_facts WHERE batch_id = '${id(12)}'`, `batch ${id(12)}: was missing`],
    [
      'an edge taken away',
      `DELETE FROM trace_edge WHERE batch_id = '${id(13)}'`,
      `batch ${id(13)}: was kept otherwise`,
    ],
    [
      'a time moved by less than a millisecond',
      `UPDATE batch_facts SET to_at = to_at + interval '1 microsecond' WHERE batch_id = '${id(12)}'`,
      `batch ${id(12)}: was kept otherwise`,
    ],
    [
      'an edge of a batch that nobody recorded',
      `INSERT INTO trace_edge SELECT operation_id, '${id(98)}', position, from_kind, from_id, to_kind, to_id, record_id,
              quantity FROM trace_edge WHERE batch_id = '${id(13)}'`,
      `batch ${id(98)}: is in no record`,
    ],
    [
      'facts of a batch that nobody recorded',
      `INSERT INTO batch_facts SELECT operation_id, '${id(99)}', as_of_seq, code, kind, phase, from_at, to_at, facts
         FROM batch_facts WHERE batch_id = '${id(11)}'`,
      `batch ${id(99)}: is in no record`,
    ],
  ])('says %s, leaves it where it only compares, and puts it back where it mends', async (_, tamper, says) => {
    const before = [await rows('batch_facts'), await rows('trace_edge')];
    await owner.query(tamper);
    const edited = [await rows('batch_facts'), await rows('trace_edge')];
    expect(edited).not.toEqual(before);
    expect((await rebuild(false)).different).toEqual([says]);
    expect([await rows('batch_facts'), await rows('trace_edge')]).toEqual(edited);
    expect((await rebuild(true)).different).toEqual([says]);
    expect([await rows('batch_facts'), await rows('trace_edge')]).toEqual(before);
    expect((await rebuild(false)).different).toEqual([]);
  });

  it('names facts that say they are newer than the log, and puts them back: they follow what comes next again', async () => {
    await owner.query('UPDATE batch_facts SET as_of_seq = 1000000 WHERE batch_id = $1', [id(11)]);
    expect((await rebuild(true)).different).toEqual([`batch ${id(11)}: was kept otherwise`]);
    await service.append(op.operationId, op.tokens.recorder, [record('batch.closed', { batchId: id(11) })]);
    expect((await rebuild(false)).different).toEqual([]);
    expect(await owner.query('SELECT phase FROM batch_facts WHERE batch_id = $1', [id(11)])).toEqual([
      { phase: 'closed' },
    ]);
  });

  it('puts back what records are found by', async () => {
    const before = await rows('mention');
    await owner.query('DELETE FROM mention WHERE operation_id = $1 AND seq = 3', [op.operationId]);
    await owner.query('INSERT INTO mention VALUES ($1, $2, 4), ($1, $2, 4000)', [op.operationId, id(77)]);
    const { indexes } = await rebuild(true);
    expect(indexes.map(({ seq, mendable }) => [seq, mendable])).toEqual([
      [3, true],
      [4, true],
      [4000, true],
    ]);
    expect(await rows('mention')).toEqual(before);
  });

  it('names a column, a node of the tree and a head that are not what the entries give, and leaves them alone', async () => {
    const { operationId } = op;
    await owner.query('ALTER TABLE log_entry DISABLE TRIGGER append_only');
    await owner.query('ALTER TABLE tree_node DISABLE TRIGGER append_only');
    await owner.query(`UPDATE log_entry SET type = 'batch.lost' WHERE operation_id = $1 AND seq = 5`, [operationId]);
    await owner.query('UPDATE tree_node SET hash = $2 WHERE operation_id = $1 AND level = 1 AND index = 3', [
      operationId,
      Buffer.alloc(32, 1),
    ]);
    await owner.query('UPDATE log_head SET frontier = $2 WHERE operation_id = $1', [operationId, Buffer.alloc(96, 1)]);
    const before = [await rows('log_entry'), await rows('tree_node'), await rows('log_head')];
    const { indexes } = await rebuild(true);
    expect(indexes.filter(({ mendable }) => mendable)).toEqual([]);
    expect(indexes.map(({ what }) => what)).toEqual([
      'entry 5: the type beside it is not the one in its bytes',
      'node 1/3 of the tree is not the one over entries 6 to 7',
      'the right edge of the tree in the head is not that of the entries',
    ]);
    expect([await rows('log_entry'), await rows('tree_node'), await rows('log_head')]).toEqual(before);
    await owner.query('ALTER TABLE log_entry ENABLE ALWAYS TRIGGER append_only');
    await owner.query('ALTER TABLE tree_node ENABLE ALWAYS TRIGGER append_only');
  });
});

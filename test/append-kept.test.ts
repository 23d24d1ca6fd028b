import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { batchView, edgesOf, openSeason, recordFromLog, type LogRecord } from '@furrowmark/domain';
import { OperationScope } from '@furrowmark/api';
import { TestService } from './support/service.ts';

let service: TestService;
beforeAll(async () => {
  service = await TestService.start();
}, 60_000);
afterAll(() => service.close());

// One record of almost every type, on two batches, with an amendment and a strike.
const corpus: { id: string }[] = readFileSync(
  new URL('../libs/domain/src/records/corpus/v1.ndjson', import.meta.url),
  'utf8',
)
  .trim()
  .split('\n')
  .map((line) => JSON.parse(line));

describe('what follows from records', () => {
  const record = (type: string, data: object) => ({
    ...{ id: randomUUID(), type, version: 1, occurredAt: '2026-06-01T08:00:00-05:00', data },
  });

  it('of the operation itself stands in the list of operations when the append is answered', async () => {
    const op = await service.operation();
    const listed = async (): Promise<unknown> => {
      const { json } = await service.get('/api/v1/operations', op.tokens.manager);
      const found = json.operations.find(({ operationId }: { operationId: string }) => operationId === op.operationId);
      return [found?.name, found?.timeZone];
    };
    const [first] = [await listed()];
    const renamed = record('operation.revised', { name: 'Quillfen Upper Farm', timeZone: 'America/Denver' });
    await service.append(op.operationId, op.tokens.manager, [renamed]);
    expect(await listed()).toEqual(['Quillfen Upper Farm', 'America/Denver']);
    const struck = record('record.struck', { recordId: renamed.id, type: 'operation.revised', reason: 'not yet' });
    await service.append(op.operationId, op.tokens.manager, [struck]);
    expect(await listed()).toEqual(first);
  });

  it('is in a list of batches that is read while records keep arriving', async () => {
    const op = await service.operation();
    const vesselId = randomUUID();
    let [stop, opened] = [false, 0];
    const phones = Array.from({ length: 3 }, async () => {
      while (!stop) {
        opened += 1;
        const batch = { batchId: randomUUID(), code: `T-${opened}`, kind: 'aeratedTea', vesselId };
        await service.append(op.operationId, op.tokens.manager, [record('batch.opened', batch)]);
      }
    });
    try {
      for (let read = 0; read < 5; read += 1) {
        const before = opened - phones.length;
        const { json } = await service.get(
          `/api/v1/operations/${op.operationId}/batches?limit=1000`,
          op.tokens.manager,
        );
        expect(json.batches.length).toBeGreaterThanOrEqual(before);
      }
    } finally {
      stop = true;
      await Promise.all(phones);
    }
  });
});

describe('what is kept beside the log', () => {
  it('is, after every append in whatever order and grouping, what a fresh fold of the log gives', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.shuffledSubarray(corpus, { minLength: 20 }),
        fc.array(fc.integer({ min: 1, max: 25 }), { minLength: 4, maxLength: 12 }),
        async (records, sizes) => {
          const op = await service.operation();
          let rest = records;
          for (const size of [...sizes, records.length]) {
            const answer = await service.append(op.operationId, op.tokens.manager, rest.slice(0, size));
            expect(answer.status).toBe(200);
            rest = rest.slice(size);
            // A list read settles what is stale first.
            await service.get(`/api/v1/operations/${op.operationId}/batches`, op.tokens.inspector);
            expect(await keptOf(op.operationId)).toEqual(await foldedOf(op.operationId, op.tokens.manager));
          }
        },
      ),
      { numRuns: 6 },
    );
  }, 120_000);

  // Last: the two services of this process share a database, which ends with the first that is closed.
  it('is the same where seasons are let go and opened again, with hardly room for one', async () => {
    const cramped = await TestService.start({ recordsInMemory: 1 });
    try {
      const [one, other] = [await cramped.operation(), await cramped.operation()];
      const page = (op: typeof one) =>
        cramped.get(`/api/v1/operations/${op.operationId}/batches?limit=100`, op.tokens.inspector);
      for (let from = 0; from < corpus.length; from += 20) {
        for (const op of [one, other]) {
          const answer = await cramped.append(op.operationId, op.tokens.manager, corpus.slice(from, from + 20));
          expect(answer.status).toBe(200);
        }
        const [first, second] = [(await page(one)).json.batches, (await page(other)).json.batches];
        expect(first).toEqual(second);
      }
      expect((await page(one)).json.batches.length).toBeGreaterThan(1);
    } finally {
      await cramped.close();
    }
  }, 60_000);
});

async function keptOf(operationId: string): Promise<unknown> {
  const scope = service.service.context.get(OperationScope);
  return scope.run(operationId, (manager) =>
    manager.query(`
      SELECT b.batch_id AS id, b.code, b.kind, b.phase, b.facts,
             coalesce((SELECT jsonb_agg(jsonb_build_array(t.from_id, t.to_id, t.record_id, t.quantity) ORDER BY position)
                         FROM trace_edge t WHERE t.batch_id = b.batch_id), '[]') AS edges
        FROM batch_facts b ORDER BY b.batch_id`),
  );
}

/** The same from the log alone: read over HTTP, folded in one go. */
async function foldedOf(operationId: string, token: string): Promise<unknown> {
  const { json } = await service.get(`/api/v1/operations/${operationId}/records?limit=1000`, token);
  const season = openSeason(json.records.map((record: unknown): LogRecord => recordFromLog(record)));
  const batches = [...season.batches()].sort((a, b) => (a.id < b.id ? -1 : 1));
  const plain = batches.map((batch) => ({
    id: batch.id,
    code: batch.code,
    kind: batch.kind,
    phase: batch.phase,
    facts: batchView(batch),
    edges: edgesOf(season, batch.id).map(({ from, to, recordId, quantity }) => [
      from.id,
      to.id,
      recordId,
      quantity ?? null,
    ]),
  }));
  return JSON.parse(JSON.stringify(plain));
}

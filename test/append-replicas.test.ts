import { randomUUID } from 'node:crypto';
import { copyFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { OperationScope, startService, type RunningService } from '@furrowmark/api';
import { testDatabase } from './support/database.ts';
import { temporaryFolder } from './support/folder.ts';
import { note, TestService } from './support/service.ts';

let first: TestService;
let second: RunningService;
beforeAll(async () => {
  first = await TestService.start();
  const { dataDir, databaseUrl } = await testDatabase();
  const other = temporaryFolder('replica');
  copyFileSync(join(dataDir, 'log-signing-key'), join(other, 'log-signing-key'));
  second = await startService({
    dataDir: other,
    databaseUrl: databaseUrl ?? first.service.database.embedded?.ownerUrl,
    log: 'error',
  });
}, 60_000);
afterAll(async () => {
  await second.close();
  await first.close();
});

describe('two services over one database', () => {
  it('append to the same log at once: seq without gaps, nothing twice, and each reads what the other wrote', async () => {
    const op = await first.operation();
    const urls = [first.url, second.url];
    const send = async (url: string | undefined, records: unknown[]) => {
      const answer = await fetch(`${url}/api/v1/operations/${op.operationId}/records`, {
        method: 'POST',
        headers: { authorization: `Bearer ${op.tokens.recorder}`, 'content-type': 'application/json' },
        body: JSON.stringify({ records }),
      });
      expect(answer.status).toBe(200);
      return answer.text().then((text) => JSON.parse(text));
    };
    const shared = note('on both ways at once');
    const answers = await Promise.all(
      Array.from({ length: 40 }, (_, i) => send(urls[i % 2], [note(`note ${i}`), shared, note(`more ${i}`)])),
    );
    const results: { status: string; seq: number; id: string }[] = answers.flatMap(({ results: each }) => each);
    const recorded = results.filter(({ status }) => status === 'recorded').map(({ seq }) => seq);
    expect(recorded.sort((a, b) => a - b)).toEqual(Array.from({ length: 81 }, (_, i) => i + 1));
    expect(new Set(results.filter(({ id }) => id === shared.id).map(({ seq }) => seq)).size).toBe(1);

    const batchId = '01976f00-0000-7000-8000-0000000000b1';
    const read = async (url: string | undefined, path: string) => {
      const answer = await fetch(`${url}/api/v1/operations/${op.operationId}/${path}`, {
        headers: { authorization: `Bearer ${op.tokens.inspector}` },
      });
      return answer.text();
    };
    const at = '?at=2026-07-01T00:00:00Z';
    const batches = await Promise.all(urls.map((url) => read(url, `batches/${batchId}${at}`)));
    expect(JSON.parse(batches[0] ?? '').timeline).toHaveLength(81);
    expect(batches[1]).toBe(batches[0]);
    // The same key, the same log: the same checkpoint, to the byte.
    const checkpoints = await Promise.all(urls.map((url) => read(url, 'log/checkpoint')));
    expect(checkpoints[1]).toBe(checkpoints[0]);
  }, 60_000);

  it('settle what the other left to be settled, though they have not seen the season before', async () => {
    const op = await first.operation();
    // Ten tanks: more than an append follows at once. Each gets a reading of its own afterwards, again in one request.
    const batchIds = Array.from({ length: 10 }, () => randomUUID());
    const at = (time: string) => ({ version: 1, occurredAt: `2026-06-02T${time}:00-05:00` });
    const opened = batchIds.map((batchId, i) => ({
      id: randomUUID(),
      type: 'batch.opened',
      ...at('06:00'),
      data: { batchId, code: `T-${i}`, kind: 'aeratedTea', vesselId: randomUUID() },
    }));
    const measured = batchIds.map((batchId, i) => ({
      id: randomUUID(),
      type: 'batch.oxygenMeasured',
      ...at('12:00'),
      data: { batchId, dissolvedOxygen: { value: 6 + i / 10, unit: 'mg/L' } },
    }));
    expect((await first.append(op.operationId, op.tokens.recorder, opened)).status).toBe(200);
    expect(await keptReadings(op.operationId)).toEqual([]);
    const list = `/api/v1/operations/${op.operationId}/batches?limit=20`;
    await first.get(list, op.tokens.inspector);
    expect(await keptReadings(op.operationId)).toEqual(batchIds.map(() => []));
    expect((await first.append(op.operationId, op.tokens.recorder, measured)).status).toBe(200);

    const answer = await fetch(`${second.url}${list}`, { headers: { authorization: `Bearer ${op.tokens.inspector}` } });
    expect(await answer.json()).toMatchObject({ asOfSeq: 20 });
    expect(await keptReadings(op.operationId)).toEqual(batchIds.map((_, i) => [6 + i / 10]));
  }, 60_000);

  /** Of each batch, by code, the oxygen readings in the facts kept of it, as they stand in the database. */
  async function keptReadings(operationId: string): Promise<unknown[]> {
    const rows: { readings: unknown }[] = await second.context.get(OperationScope).run(operationId, (manager) =>
      manager.query(
        `SELECT jsonb_path_query_array(facts, '$.oxygen.readings[*].mgPerL') AS readings FROM batch_facts
          WHERE operation_id = $1 ORDER BY code`,
        [operationId],
      ),
    );
    return rows.map(({ readings }) => readings);
  }
});

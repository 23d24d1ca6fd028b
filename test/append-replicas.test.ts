import { copyFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startService, type RunningService } from '@furrowmark/api';
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
});

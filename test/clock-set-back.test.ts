import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { DataSource } from 'typeorm';
import { bringBackTimes, queueOf, reportQueue } from '../apps/api/src/database/index.ts';
import { testDatabase } from './support/database.ts';
import { TestService } from './support/service.ts';

// What a clock that ran two hours ahead has left behind once it was set right: times that lie ahead.
let service: TestService;
let owner: DataSource;
beforeAll(async () => {
  service = await TestService.start();
  const { databaseUrl } = await testDatabase();
  const url = databaseUrl ?? service.service.database.embedded?.ownerUrl ?? '';
  owner = await new DataSource({ type: 'postgres', url, extra: { max: 1 } }).initialize();
}, 60_000);
afterAll(async () => {
  await owner.destroy();
  await service.close();
});

describe('the queue after the clock was set back', () => {
  it('brings back times that lie ahead, and leaves alone those that do not', async () => {
    const boss = queueOf(owner, false);
    await boss.start();
    const id = await boss.send(reportQueue, { operationId: 'none', jobId: 'none' }, { startAfter: 7_200 });
    await boss.stop({ graceful: false, close: false });
    expect(id).not.toBeNull();
    await owner.query(`UPDATE job_queue.queue SET maintain_on = now() + interval '2 hours'`);
    await bringBackTimes(service.service.context.get(DataSource));
    const [job] = await owner.query('SELECT start_after <= now() AS due FROM job_queue.job WHERE id = $1', [id]);
    // Taken already by the service that works here, or due.
    expect(job?.due ?? true).toBe(true);
    const [queue] = await owner.query(`SELECT maintain_on <= now() AS back  FROM job_queue.queue WHERE name = $1`, [
      reportQueue,
    ]);
    expect(queue).toMatchObject({ back: true });
    await owner.query('DELETE FROM job_queue.job WHERE id = $1', [id]);
  });
});

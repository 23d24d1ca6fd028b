import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from '@jest/globals';
import { startService } from '@furrowmark/api';
import { Chance } from './faults/chance.ts';
import { smallDisk } from './faults/full-disk.ts';
import { brew, deliver, freshlyTold, type Queued } from './faults/phones.ts';
import { logFaults, rebuildFaults } from './faults/whole.ts';
import { readyCluster } from './support/cluster.ts';
import { temporaryFolder } from './support/folder.ts';

describe('the disk fills up while phones deliver', () => {
  it('they are asked to wait, nothing acknowledged is lost, and with room again everything goes on by itself', async () => {
    const dataDir = temporaryFolder('full-disk');
    const disk = smallDisk(dataDir, 160);
    if (typeof disk === 'string') {
      // Said, not passed over in silence: whoever reads the run knows that this was not tried.
      process.stderr.write(`full-disk: not tried: ${disk}\n`);
      expect(process.getuid?.() === 0 && process.env['CI'] !== 'true' ? disk : '').toBe('');
      return;
    }
    try {
      await readyCluster(dataDir);
      const service = await startService({ dataDir, log: 'silent' });
      try {
        const { accountId } = await service.createAccount({ name: 'Ines' });
        const { token } = await service.issueToken({ accountId, label: 'test' });
        const person = { accountId, name: 'Ines' };
        const made = await service.createOperation(person, { name: 'Quillfen Growers', timeZone: 'UTC' });
        if (!('operationId' in made)) throw new Error(made.refused.detail);
        const address = { url: service.url, token, operationId: made.operationId };
        const told = freshlyTold();
        const chance = new Chance(20261125);
        const queue: Queued[] = [];
        const write = (brews: number): void => {
          for (let i = 0; i < brews; i += 1) queue.push(...brew(chance, told.sent.size + queue.length));
        };
        const send = async (): Promise<boolean> => {
          const piece = queue.slice(0, 200);
          const taken = await deliver(address, piece, told);
          if (taken) queue.splice(0, piece.length);
          return taken;
        };
        write(20);
        while (queue.length > 0) expect(await send()).toBe(true);

        disk.fill(512 * 1024);
        let refused = 0;
        for (let i = 0; i < 300 && refused < 5 && told.wrong.length === 0; i += 1) {
          if (queue.length === 0) write(20);
          if (!(await send())) refused += 1;
        }
        // Refused as 503 with Retry-After: anything else stands among what is wrong.
        expect(told.wrong).toEqual([]);
        expect(refused).toBe(5);
        expect(told.statuses.get('503') ?? 0).toBeGreaterThan(0);

        disk.clear();
        write(5);
        for (let i = 0; i < 300 && queue.length > 0; i += 1) if (!(await send())) await pause(100);
        expect([queue.length, told.wrong]).toEqual([0, []]);
        expect(told.acknowledged.size).toBe(told.sent.size);
        expect(await logFaults(address, told)).toEqual([]);
        expect((await rebuildFaults(dataDir, undefined, made.operationId)).wrong).toEqual([]);
      } finally {
        disk.clear();
        await service.close();
      }
    } finally {
      disk.remove();
    }
  }, 120_000);
});

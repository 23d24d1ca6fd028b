import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { canonicalBytes, utf8 } from '@furrowmark/log';
import { note } from './support/service.ts';
import { Farmhouse, renumbered } from './tamper/live-log.ts';
import type { Entry, LiveLog } from './tamper/live-log.ts';

/*
 * Tampering by the owner, who has the database and the signing key, writes the log anew from the changed entries with all
 * that lies beside it, makes the key forget, and signs. Tried on the database as it runs and on what it hands out, each
 * without and with the checkpoint that somebody outside kept. Numbers: the list in docs/log-format.md.
 */
let house: Farmhouse;
beforeAll(async () => {
  house = await Farmhouse.open('tamper');
  await house.disarm();
}, 60_000);
afterAll(() => house.close());

/** Where each is found: by nobody who kept nothing (`outside`), or by anybody, for the entries themselves show it. */
interface Rewriting {
  readonly name: string;
  readonly how: (entries: readonly Entry[], log: LiveLog) => readonly Uint8Array[] | Promise<readonly Uint8Array[]>;
  readonly found: 'outside' | RegExp;
}

const bytes = (entries: readonly Entry[]): Uint8Array[] => entries.map(canonicalBytes);
const change = (entries: readonly Entry[], seq: number, more: Record<string, unknown>): Uint8Array[] =>
  bytes(entries.map((entry) => (entry.seq === seq ? { ...entry, ...more } : entry)));

const rewritings: readonly Rewriting[] = [
  {
    name: '1: edits an entry',
    how: (entries) => change(entries, 5, { occurredAt: '2026-06-02T06:10:00-05:00' }),
    found: 'outside',
  },
  {
    name: '3: takes an entry out and leaves the numbers',
    how: (entries) => bytes(entries.toSpliced(4, 1)),
    found: /the entry at place 4 has number 5 written in it/,
  },
  {
    name: '4: takes an entry out and renumbers',
    how: (entries) => renumbered(entries.toSpliced(4, 1)),
    found: 'outside',
  },
  {
    name: '5: lets two entries change places and renumbers',
    how: (entries) => renumbered(entries.with(3, at(entries, 7)).with(7, at(entries, 3))),
    found: 'outside',
  },
  {
    name: '6: puts an entry in and renumbers',
    how: (entries) =>
      renumbered(entries.toSpliced(5, 0, { ...at(entries, 4), id: '0197a000-0000-7000-8000-000000777777' })),
    found: 'outside',
  },
  {
    name: '8: sets the clock back behind an entry',
    how: (entries) => change(entries, 6, { recordedAt: '2026-01-01T00:00:00.000Z' }),
    found: /entry 6\b.*\bbefore/,
  },
  {
    name: '9: sets the clock ahead of the reader’s',
    how: (entries) => change(entries, entries.length - 1, { recordedAt: '2101-01-01T00:00:00.000Z' }),
    found: /entry 11\b.*2101/,
  },
  { name: '10: cuts the end off', how: (entries) => bytes(entries.slice(0, 9)), found: 'outside' },
  {
    name: '14: replaces the whole log under the same key',
    how: (entries) => bytes(entries.map((entry) => ({ ...entry, recordedBy: '0197a000-0000-7000-8000-0000000000ac' }))),
    found: 'outside',
  },
  {
    name: '18: changes a document, and the entry that names it',
    how: (entries, log) => {
      const forged = 'day,mg/L\n2026-06-03,9.9\n';
      const sha256 = createHash('sha256').update(forged).digest('hex');
      rmSync(log.documents[0]);
      const place = join(house.home, 'data', 'documents', log.operationId, sha256.slice(0, 2), sha256);
      mkdirSync(dirname(place), { recursive: true });
      writeFileSync(place, forged);
      const data = { ...at(entries, 10).data, sha256, byteLength: forged.length };
      return house.owner
        .query('UPDATE document SET sha256 = $2, byte_length = $3 WHERE operation_id = $1 AND sha256 = $4', [
          ...[log.operationId, Buffer.from(sha256, 'hex'), forged.length],
          Buffer.from(String(at(entries, 10).data['sha256']), 'hex'),
        ])
        .then(() => change(entries, 10, { data }));
    },
    found: 'outside',
  },
  {
    name: '20: writes bytes that are not canonical',
    how: (entries) => bytes(entries).with(2, utf8(JSON.stringify(at(entries, 2), null, 1))),
    found: /entry 2 is not canonical JSON/,
  },
  {
    name: '21: writes a look-alike spelling',
    how: (entries) => {
      const { data } = at(entries, 4);
      return change(entries, 4, { data: { ...data, note: String(data['note']).normalize('NFD') } });
    },
    found: 'outside',
  },
  {
    name: '23: brings an entry of another log over',
    how: async (entries) => {
      const elsewhere = await house.entries((await house.log()).operationId);
      return bytes(entries.with(6, at(elsewhere, 6)));
    },
    found: /another log/,
  },
];

function at(entries: readonly Entry[], seq: number): Entry {
  const entry = entries[seq];
  if (entry === undefined) throw new Error(`there is no entry ${seq}`);
  return entry;
}

describe('the owner, who has the key as well', () => {
  it.each(rewritings)('$name and signs anew', async ({ how, found }) => {
    const log = await house.log();
    const { operationId, kept } = log;
    await house.rewrite(operationId, await how(await house.entries(operationId), log));
    for (const check of [house.database.bind(house), house.exported.bind(house)]) {
      const alone = await check(operationId);
      if (found === 'outside') {
        expect(alone).toMatchObject({ code: 3, said: expect.stringContaining('SELF-CONSISTENT, BUT NOT WITNESSED') });
      } else {
        expect(alone).toMatchObject({ code: 1, said: expect.stringMatching(found) });
      }
      expect(alone?.said).not.toContain('GENUINE');
      const held = await check(operationId, '--against', kept);
      expect(held?.code).toBe(1);
      expect(held?.said).not.toContain('GENUINE');
    }
  });

  it('11: puts an older backup in place, with the key’s memory of that day: found by the checkpoint kept outside', async () => {
    const { operationId, kept } = await house.log();
    await house.putBack(operationId, 9);
    rmSync(house.memory(operationId));
    expect(await house.exported(operationId)).toMatchObject({ code: 3 });
    const held = await house.exported(operationId, '--against', kept);
    expect(held).toMatchObject({ code: 1, said: expect.stringMatching(/covers 12 entries, but only 9 are here/) });
  });

  it('12, 16: shows one reader this log and the other that one: their two checkpoints together prove it', async () => {
    const { operationId, kept } = await house.log();
    const entries = await house.entries(operationId);
    await house.rewrite(operationId, change(entries, 5, { occurredAt: '2026-06-02T06:10:00-05:00' }));
    const other = join(house.home, `${operationId}.other`);
    writeFileSync(other, await (await house.api(`/${operationId}/log/checkpoint`)).text());
    expect(readFileSync(other, 'utf8')).not.toBe(readFileSync(kept, 'utf8'));
    const both = await house.exported(operationId, '--against', kept, '--against', other);
    expect(both).toMatchObject({ code: 1, said: expect.stringContaining('the log was shown in two versions') });
  });

  it('19: lets a document disappear: the entry still names it, by its digest, to everybody', async () => {
    const { operationId, kept, documents } = await house.log();
    rmSync(documents[0]);
    await house.owner.query('DELETE FROM document WHERE operation_id = $1 AND byte_length = 24', [operationId]);
    for (const args of [[], ['--against', kept]]) {
      for (const verdict of [await house.database(operationId, ...args), await house.exported(operationId, ...args)])
        expect(verdict).toMatchObject({ code: 4, said: expect.stringMatching(/named by entry 10, is missing/) });
    }
  });

  it('after the last checkpoint that anybody kept nothing shows it: this is the window that stays open', async () => {
    const { operationId, kept } = await house.log();
    await house.append(operationId, [note('after the witness')]);
    const entries = await house.entries(operationId);
    await house.rewrite(operationId, change(entries, 12, { occurredAt: '2026-06-01T06:10:00-05:00' }));
    expect(await house.exported(operationId, '--against', kept)).toMatchObject({
      code: 0,
      said: expect.stringContaining('GENUINE UP TO SIZE 12'),
    });
  });
});

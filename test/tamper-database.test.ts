import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { leafHash } from '@furrowmark/log';
import { furrowmark } from './support/command-line.ts';
import { note } from './support/service.ts';
import { edited, Farmhouse, size } from './tamper/live-log.ts';
import type { LiveLog } from './tamper/live-log.ts';

/*
 * Tampering in the database and the data folder themselves, by a thief who has them but not the signing key. Each is
 * looked for in the database as it runs (`furrowmark verify --operation`) and in what it hands out. The numbers are those
 * of the list in docs/log-format.md; what concerns only files that are handed out (13, 14, 17, 22, 24) is in
 * tamper/tampering.test.ts, what the owner does who has the key as well in tamper-owner.test.ts.
 */
let house: Farmhouse;
beforeAll(async () => {
  house = await Farmhouse.open('tamper');
  // Hygiene, not evidence: even so some triggers stay in the way.
  await expect(house.owner.query('DELETE FROM log_entry')).rejects.toThrow(
    /append-only: DELETE on log_entry is refused/,
  );
  await house.disarm();
}, 60_000);
afterAll(() => house.close());

const last = size - 1;
const sql = (text: string, ...values: unknown[]): Promise<unknown> => house.owner.query(text, values);
const without = (operationId: string, seq: number): Promise<unknown> =>
  sql('DELETE FROM log_entry WHERE operation_id = $1 AND seq = $2', operationId, seq);
const change = async (id: string, seq: number, how: Parameters<typeof edited>[1]): Promise<unknown> =>
  house.write(id, seq, edited(await house.bytesOf(id, seq), how));

interface Tampering {
  readonly name: string;
  readonly how: (log: LiveLog) => unknown;
  /** What the database and the export both say; `beside` is said of the database only. */
  readonly finds?: RegExp;
  readonly beside?: RegExp;
  /** The verifier's exit codes for the database and the export, where they are not 1 and 1: a file that is lost was not altered. */
  readonly codes?: readonly [database: number, exported: number];
}

const tamperings: readonly Tampering[] = [
  {
    name: '1: the bytes of an entry edited',
    how: ({ operationId }) => change(operationId, 5, (entry) => (entry['occurredAt'] = '2026-06-02T06:10:00-05:00')),
    finds: /entry 5\b/,
    beside: /entry 5: the leaf hash beside it is not that of its bytes/,
  },
  {
    name: '2: only a column beside the bytes edited',
    how: ({ operationId }) =>
      sql(
        `UPDATE log_entry SET occurred_at = occurred_at - interval '1 day' WHERE operation_id = $1 AND seq = 6`,
        operationId,
      ),
    beside: /entry 6: the time beside it at which it happened is not the one in its bytes/,
    codes: [1, 3],
  },
  {
    name: '2: what an entry names taken out of the index',
    how: ({ operationId }) => sql('DELETE FROM mention WHERE operation_id = $1 AND seq = 6', operationId),
    beside: /entry 6: what it names is not what is kept as named by it/,
    codes: [1, 3],
  },
  {
    name: '2: the facts of a batch edited',
    how: ({ operationId }) => sql(`UPDATE batch_facts SET facts = '{}' WHERE operation_id = $1`, operationId),
    beside: /batch 01976f00-0000-7000-8000-0000000000b1: was kept otherwise/,
    codes: [1, 3],
  },
  {
    name: '3: an entry taken out',
    how: ({ operationId }) => without(operationId, 4),
    finds: /the entry at place 4 has number 5 written in it/,
    beside: /entry 4 is missing/,
  },
  {
    name: '4: an entry taken out and the others moved up',
    how: async ({ operationId }) => {
      await without(operationId, 4);
      for (let seq = 5; seq <= last; seq += 1)
        await sql('UPDATE log_entry SET seq = seq - 1 WHERE operation_id = $1 AND seq = $2', operationId, seq);
    },
    finds: /the entry at place 4 has number 5 written in it/,
    beside: /entry 4: it stands at 4, but its bytes say 5/,
  },
  {
    name: '5: two entries exchanged',
    how: ({ operationId }) => exchanged(operationId, 3, 7),
    finds: /the entry at place 3 has number 7 written in it/,
    beside: /entry 3: it stands at 3, but its bytes say 7/,
  },
  {
    name: '6: an entry put in, the rest moved on',
    how: async ({ operationId }) => {
      for (let seq = last; seq >= 5; seq -= 1)
        await sql('UPDATE log_entry SET seq = seq + 1 WHERE operation_id = $1 AND seq = $2', operationId, seq);
      await sql(
        `INSERT INTO log_entry SELECT operation_id, 5, gen_random_uuid(), type, occurred_at, recorded_at, leaf_hash, bytes
           FROM log_entry WHERE operation_id = $1 AND seq = 4`,
        operationId,
      );
    },
    finds: /the entry at place 5 has number 4 written in it/,
    beside: /entry 5: it stands at 5, but its bytes say 4/,
  },
  {
    name: '8: the time of recording set back',
    how: ({ operationId }) => change(operationId, 6, (entry) => (entry['recordedAt'] = '2026-01-01T00:00:00.000Z')),
    finds: /entry 6\b.*\bbefore/,
    beside: /entry 6: the time beside it at which it was recorded is not the one in its bytes/,
  },
  {
    name: '9: the time of recording set ahead of the reader’s clock',
    how: ({ operationId }) => change(operationId, last, (entry) => (entry['recordedAt'] = '2101-01-01T00:00:00.000Z')),
    finds: /entry 11\b.*2101/,
  },
  {
    name: '10: the end cut off',
    how: ({ operationId }) => sql('DELETE FROM log_entry WHERE operation_id = $1 AND seq >= 9', operationId),
    finds: /covers 12 entries/,
    beside: /the head says 12 entries, but 9 are there/,
  },
  {
    name: '15: the leaf hash edited to fit the edited bytes',
    how: async ({ operationId }) => {
      await change(operationId, 8, (entry) => (entry['origin'] = 'fromMemory'));
      const leaf = Buffer.from(leafHash(await house.bytesOf(operationId, 8)));
      await sql('UPDATE log_entry SET leaf_hash = $2 WHERE operation_id = $1 AND seq = 8', operationId, leaf);
    },
    finds: /root/,
    beside: /node 1\/4 of the tree is not the one over entries 8 to 9/,
  },
  {
    name: '18: the bytes of a document changed',
    how: ({ documents: [letter] }) => writeFileSync(letter, readFileSync(letter, 'utf8').replace('7.4', '5.4')),
    finds: /named by entry 10/,
    beside: /named by entry 10, was altered/,
    // What is not what was attached is not given out: there it is missing.
    codes: [1, 4],
  },
  {
    name: '18: a document made longer',
    how: ({ documents: [letter] }) => writeFileSync(letter, `${readFileSync(letter, 'utf8')}2026-06-04,7.1\n`),
    finds: /named by entry 10/,
    beside: /named by entry 10, was altered/,
    codes: [1, 4],
  },
  {
    name: '19: a document removed',
    how: ({ documents: [letter] }) => rmSync(letter),
    finds: /named by entry 10, is missing/,
    codes: [4, 4],
  },
  {
    name: '19: two documents exchanged for one another',
    how: ({ documents: [letter, label] }) => {
      renameSync(letter, `${letter}.aside`);
      renameSync(label, letter);
      renameSync(`${letter}.aside`, label);
    },
    finds: /named by entry 10.*[^]*named by entry 11/,
    beside: /named by entry 10, was altered[^]*named by entry 11, was altered/,
    codes: [1, 4],
  },
  {
    name: '19: a document taken off the list of those kept',
    how: ({ operationId }) => sql('DELETE FROM document WHERE operation_id = $1', operationId),
    finds: /named by entry 10, is missing/,
    codes: [4, 4],
  },
  {
    name: '20: bytes that are not canonical',
    how: async ({ operationId }) => {
      const text = (await house.bytesOf(operationId, 2)).toString('utf8');
      await house.write(operationId, 2, Buffer.from(text.replace('{', '{ ')));
    },
    finds: /entry 2 is not canonical JSON/,
    beside: /entry 2: the leaf hash/,
  },
  {
    name: '21: a look-alike spelling',
    how: ({ operationId }) =>
      change(operationId, 4, ({ data }) => (data['note'] = String(data['note']).normalize('NFD'))),
    finds: /entry 4 was altered/,
  },
  {
    name: '23: an entry of another log put in the place of one',
    how: async ({ operationId }) => {
      const elsewhere = await house.log();
      await house.write(operationId, 6, await house.bytesOf(elsewhere.operationId, 6));
    },
    finds: /entry 6\b.*\banother log|another log.*\bentry 6\b/,
  },
  {
    name: 'what was sealed exchanged for something else',
    how: ({ operationId }) =>
      sql(
        `UPDATE opening SET value = convert_to(replace(convert_from(value, 'UTF8'), 'Ines', 'Inez'), 'UTF8')
          WHERE operation_id = $1`,
        operationId,
      ),
    finds: /1 altered/,
  },
];

describe('a thief in the database', () => {
  it('an untouched log is self-consistent, and genuine with the checkpoint that was kept', async () => {
    const { operationId, kept } = await house.log();
    const typed = (...args: string[]) => furrowmark(house.home, 'verify', '--operation', operationId, ...args);
    expect(await typed()).toMatchObject({ code: 3, out: expect.stringContaining('SELF-CONSISTENT') });
    expect(await typed('--against', kept)).toMatchObject({
      code: 0,
      out: expect.stringContaining('GENUINE UP TO SIZE 12'),
    });
    expect(await house.database(operationId)).toMatchObject({ code: 3 });
    expect(await house.exported(operationId, '--against', kept)).toMatchObject({ code: 0 });
  }, 120_000);

  it('the command names what is wrong in the entries and beside them', async () => {
    const { operationId } = await house.log();
    await change(operationId, 5, (entry) => (entry['occurredAt'] = '2026-06-02T06:10:00-05:00'));
    await sql('DELETE FROM mention WHERE operation_id = $1 AND seq = 6', operationId);
    const { code, out, err } = await furrowmark(house.home, 'verify', '--operation', operationId);
    expect(code).toBe(1);
    expect(out).toMatch(/entry 5 was altered/);
    expect(err).toMatch(/entry 6: what it names is not what is kept as named by it/);
  }, 120_000);

  it.each(tamperings)('$name: found where it is', async ({ how, finds, beside, codes = [1, 1] }) => {
    const log = await house.log();
    await how(log);
    // With and without what was kept outside: a thief cannot sign, so nothing more is needed.
    for (const args of [[], ['--against', log.kept]]) {
      const [database, archive] = [
        await house.database(log.operationId, ...args),
        await house.exported(log.operationId, ...args),
      ];
      expect(database.code).toBe(codes[0]);
      if (finds !== undefined) expect(database.said).toMatch(finds);
      if (beside !== undefined) expect(database.said).toMatch(beside);
      // What stands beside the entries is not handed out; the entries themselves are what they were.
      expect(archive?.code).toBe(args.length > 0 && codes[1] === 3 ? 0 : codes[1]);
      if (finds !== undefined && codes[1] !== 3) expect(archive?.said).toMatch(finds);
    }
  });

  it('7: an event of long ago, recorded now, is a valid entry: listed with its delay, after what the witness saw', async () => {
    const { operationId, kept } = await house.log();
    await house.append(operationId, [note('it was so', { occurredAt: '2026-01-05T06:10:00-05:00' })]);
    for (const verdict of [
      await house.database(operationId, '--against', kept),
      await house.exported(operationId, '--against', kept),
    ]) {
      expect(verdict?.code).toBe(0);
      expect(verdict?.said).toMatch(/GENUINE UP TO SIZE 12/);
      expect(verdict?.said).toMatch(/entry 12 \(batch\.checked\): [\d.]+ days/);
    }
  });

  it('11: an older database put in its place is not signed: the key remembers more entries', async () => {
    const { operationId } = await house.log();
    await house.putBack(operationId, 9);
    const answer = await house.api(`/${operationId}/log/checkpoint`);
    expect(answer.status).toBe(500);
    expect(await answer.text()).toContain('A checkpoint of 12 entries was signed, but the log has 9');
    expect(await house.exported(operationId)).toBeNull();
    const { code, said } = await house.database(operationId);
    expect(code).toBe(1);
    expect(said).toMatch(/covers 12 entries/);
  });

  it('16: a head edited to another root gets no signature, and the last one signed shows what is wrong', async () => {
    const { operationId } = await house.log();
    await sql('UPDATE log_head SET root = $2 WHERE operation_id = $1', operationId, Buffer.alloc(32, 7));
    const answer = await house.api(`/${operationId}/log/checkpoint`);
    expect(answer.status).toBe(500);
    expect(await answer.json()).toMatchObject({ type: '/problems/log-disagrees' });
    expect(await house.exported(operationId)).toBeNull();
    const { code, said } = await house.database(operationId);
    expect(code).toBe(1);
    expect(said).toContain('the root in the head is not that of the entries');
  });

  it('18, 19: what is not what was attached is not given out, and the answer says which of the two it is', async () => {
    const { operationId, documents } = await house.log();
    const [letter, label] = documents;
    writeFileSync(letter, 'day,mg/L\n2026-06-03,9.9\n');
    rmSync(label);
    const types = [];
    for (const path of documents) {
      const answer = await house.api(`/${operationId}/documents/${path.split('/').at(-1) ?? ''}`);
      const { type }: { type: string } = JSON.parse(await answer.text());
      types.push([answer.status >= 400, type]);
    }
    expect(types).toEqual([
      [true, '/problems/document-altered'],
      [true, '/problems/document-missing'],
    ]);
  });
});

async function exchanged(operationId: string, a: number, b: number): Promise<void> {
  const aside = 1_000;
  for (const [from, to] of [
    [a, aside],
    [b, a],
    [aside, b],
  ])
    await sql('UPDATE log_entry SET seq = $3 WHERE operation_id = $1 AND seq = $2', operationId, from, to);
}

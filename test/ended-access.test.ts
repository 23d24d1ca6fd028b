import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { DataSource } from 'typeorm';
import { EndedAccess, SignIn } from '../apps/api/src/access/index.ts';
import { Invitations } from '../apps/api/src/granting/index.ts';
import { testDatabase } from './support/database.ts';
import { TestService, type TestOperation } from './support/service.ts';

/* What opens nothing any more is removed thirty days later, counts of failures after two, by the database's clock; nothing else is. */
let service: TestService;
let owner: DataSource;
let op: TestOperation;
let accountId: string;

beforeAll(async () => {
  service = await TestService.start();
  const { databaseUrl } = await testDatabase();
  const url = databaseUrl ?? service.service.database.embedded?.ownerUrl ?? '';
  owner = await new DataSource({ type: 'postgres', url }).initialize();
  op = await service.operation();
  accountId = op.accounts.recorder;
});
afterAll(async () => {
  await owner.destroy();
  await service.close();
});

const purge = (): Promise<number> => service.service.context.get(EndedAccess).purge();
const labels = async (): Promise<string[]> => {
  const rows: { label: string }[] = await owner.query(
    'SELECT label FROM access_token WHERE account_id = $1 AND label <> $2 ORDER BY label',
    [accountId, 'test'],
  );
  return rows.map(({ label }) => label);
};
const issue = (label: string): Promise<unknown> => service.service.issueToken({ accountId, label, lifeDays: 400 });
const set = (label: string, columns: string): Promise<unknown> =>
  owner.query(`UPDATE access_token SET ${columns} WHERE label = $1`, [label]);

describe('access that ended', () => {
  it('tokens and sessions go thirty days after they were withdrawn, ran out or fell idle; not before, and no others', async () => {
    const days = (n: number): string => `now() - interval '${n} days'`;
    const cases: readonly (readonly [label: string, columns: string])[] = [
      ['withdrawn 31 days ago', `withdrawn_at = ${days(31)}`],
      ['withdrawn 29 days ago', `withdrawn_at = ${days(29)}`],
      ['ran out 31 days ago', `expires_at = ${days(31)}`],
      ['ran out 29 days ago', `expires_at = ${days(29)}`],
      ['not used for 32 days, idle after one', `last_used_at = ${days(32)}, idle_minutes = 1440`],
      ['not used for 30 days, idle after one', `last_used_at = ${days(30)}, idle_minutes = 1440`],
      ['old and in use', `created_at = ${days(300)}`],
      ['without an end', `created_at = ${days(300)}, expires_at = NULL`],
    ];
    for (const [label, columns] of cases) {
      await issue(label);
      await set(label, columns);
    }
    expect(await purge()).toBeGreaterThanOrEqual(3);
    expect(await labels()).toEqual([
      'not used for 30 days, idle after one',
      'old and in use',
      'ran out 29 days ago',
      'withdrawn 29 days ago',
      'without an end',
    ]);
    expect(await purge()).toBe(0);
  });

  it('invitations go once they were used or ran out long ago; an open one still works', async () => {
    const invitations = service.service.context.get(Invitations);
    const made = [];
    for (const name of ['used', 'run out', 'open'])
      made.push(
        await invitations.make({ operationId: op.operationId, role: 'recorder', name, madeBy: op.accounts.manager }),
      );
    await owner.query(`UPDATE invitation SET used_at = now() - interval '31 days' WHERE name = 'used'`);
    await owner.query(`UPDATE invitation SET expires_at = now() - interval '31 days' WHERE name = 'run out'`);
    expect(await purge()).toBe(2);
    const left: { name: string }[] = await owner.query('SELECT name FROM invitation WHERE scope_operation = $1', [
      op.operationId,
    ]);
    expect(left).toEqual([{ name: 'open' }]);
    const accepted = await service.call('POST', '/api/v1/invitations/accept', undefined, {
      invitation: made[2]?.invitation,
      login: `open-${op.operationId}`,
      password: 'four quiet herons wade',
    });
    expect(accepted.status).toBeLessThan(300);
  });

  it('counts of failed sign-ins go two days after the last, but not while somebody has to wait', async () => {
    const signIn = service.service.context.get(SignIn);
    const cases: readonly (readonly [hours: number, locked: string, gone: boolean])[] = [
      [49, 'NULL', true],
      [47, 'NULL', false],
      [49, `now() + interval '1 minute'`, false],
      [72, `now() - interval '49 hours'`, true],
    ];
    const keys = async (): Promise<string[]> => {
      const rows: { key: string }[] = await owner.query(`SELECT encode(key, 'hex') AS key FROM attempt`);
      return rows.map(({ key }) => key);
    };
    const kept = new Set(await keys());
    const expected: string[] = [...kept];
    for (const [hours, locked, gone] of cases) {
      await signIn.signIn(`nobody-${randomUUID()}`, 'not the password');
      const [key = ''] = (await keys()).filter((each) => !kept.has(each));
      kept.add(key);
      if (!gone) expected.push(key);
      await owner.query(
        `UPDATE attempt SET last_at = now() - make_interval(hours => $2), locked_until = ${locked}
          WHERE key = decode($1, 'hex')`,
        [key, hours],
      );
    }
    expect(await purge()).toBe(2);
    expect((await keys()).toSorted()).toEqual(expected.toSorted());
  });

  it('what the log says of who was let in stays', async () => {
    const types = (
      await service.get(`/api/v1/operations/${op.operationId}/records`, op.tokens.manager)
    ).json.records.map(({ type }: { type: string }) => type);
    await purge();
    const after = (await service.get(`/api/v1/operations/${op.operationId}/records`, op.tokens.manager)).json.records;
    expect(after.map(({ type }: { type: string }) => type)).toEqual(types);
    expect(types).toContain('access.granted');
  });
});

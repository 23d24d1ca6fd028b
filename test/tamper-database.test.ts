import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { spawn } from 'node:child_process';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { startService, type RunningService } from '@furrowmark/api';
import { canonicalBytes, extend, emptyFrontier, leafHash, rootOf } from '@furrowmark/log';
import { run } from '@furrowmark/verify';
import { DataSource } from 'typeorm';
import { readyCluster } from './support/cluster.ts';
import { temporaryFolder } from './support/folder.ts';
import { note } from './support/service.ts';

/*
 * Tampering in the database itself, as its superuser with the triggers switched off (PostgreSQL manual:
 * session_replication_role, ALTER TABLE … DISABLE TRIGGER). The thief has no signing key; the owner has it, and signs anew. Each is looked for
 * in the database as it runs (`furrowmark verify --operation`) and in what it hands out.
 */
const home = temporaryFolder('tamper');
const root = join(import.meta.dirname, '..');
let service: RunningService;
let token = '';
let owner: DataSource;

beforeAll(async () => {
  await readyCluster(join(home, 'data'));
  service = await startService({ dataDir: join(home, 'data'), log: 'silent' });
  const { accountId } = await service.createAccount({ name: 'Ines' });
  ({ token } = await service.issueToken({ accountId, label: 'test' }));
  owner = await new DataSource({
    type: 'postgres',
    url: service.database.embedded?.ownerUrl ?? '',
    // As an option of the connection, for the pool drops one that was idle for long and opens another.
    extra: { max: 1, options: '-c session_replication_role=replica' },
  }).initialize();
  // Those set to ENABLE ALWAYS stay in the way even so; a superuser switches them off by name.
  await expect(owner.query('DELETE FROM log_entry')).rejects.toThrow(/append-only: DELETE on log_entry is refused/);
  for (const table of ['log_entry', 'tree_node']) await owner.query(`ALTER TABLE ${table} DISABLE TRIGGER append_only`);
}, 60_000);
afterAll(async () => {
  await owner.destroy();
  await service.close();
});

const api = (path: string, body?: unknown): Promise<Response> =>
  fetch(`${service.url}/api/v1/operations${path}`, {
    headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
    ...(body === undefined ? {} : { method: 'POST', body: JSON.stringify(body) }),
  });

const last = 11;

/** A log of twelve entries (the description and eleven notes), its checkpoint as somebody outside keeps it. */
async function log(): Promise<{ operationId: string; kept: string }> {
  const made: { operationId: string } = JSON.parse(
    await (await api('', { name: 'Quillfen Growers', timeZone: 'America/New_York' })).text(),
  );
  const { operationId } = made;
  const records = Array.from({ length: last }, (_, i) => note(`looked at it, ${i + 1}`));
  expect((await api(`/${operationId}/records`, { records })).status).toBe(200);
  const kept = join(home, `${operationId}.checkpoint`);
  writeFileSync(kept, await (await api(`/${operationId}/log/checkpoint`)).text());
  return { operationId, kept };
}

/** `furrowmark verify --operation`, as typed. */
function live(operationId: string, ...args: string[]): Promise<{ code: number | null; said: string }> {
  const main = join(root, 'apps', 'api', 'src', 'commands', 'main.ts');
  const env = Object.fromEntries(Object.entries(process.env).filter(([name]) => name !== 'DATABASE_URL'));
  const child = spawn(
    process.execPath,
    ['--import', join(root, 'apps', 'api', 'register.mjs'), main, 'verify', '--operation', operationId, ...args],
    { env: { ...env, FURROWMARK_HOME: home }, cwd: home },
  );
  let said = '';
  child.stdout.on('data', (chunk) => (said += String(chunk)));
  child.stderr.on('data', (chunk) => (said += String(chunk)));
  return new Promise((done) => child.on('close', (code) => done({ code, said })));
}

/** The export over HTTP, checked by the separate verifier; `null` where the service does not sign what it has any more. */
async function exported(operationId: string, ...args: string[]): Promise<{ code: number; said: string } | null> {
  const answer = await api(`/${operationId}/export`);
  if (answer.status !== 200) return null;
  const path = join(home, `${operationId}.tar`);
  writeFileSync(path, Buffer.from(await answer.arrayBuffer()));
  const { code, output } = await run([path, ...args], Date.now());
  return { code, said: output };
}

const bytesOf = async (operationId: string, seq: number): Promise<Buffer> => {
  const [row]: { bytes: Buffer }[] = await owner.query(
    'SELECT bytes FROM log_entry WHERE operation_id = $1 AND seq = $2',
    [operationId, seq],
  );
  return row?.bytes ?? Buffer.alloc(0);
};
const write = (operationId: string, seq: number, bytes: Buffer): Promise<unknown> =>
  owner.query('UPDATE log_entry SET bytes = $3 WHERE operation_id = $1 AND seq = $2', [operationId, seq, bytes]);
const without = (operationId: string, seq: number): Promise<unknown> =>
  owner.query('DELETE FROM log_entry WHERE operation_id = $1 AND seq = $2', [operationId, seq]);
const edited = (bytes: Buffer, change: (entry: Record<string, unknown>) => void): Buffer => {
  const entry: Record<string, unknown> = JSON.parse(bytes.toString('utf8'));
  change(entry);
  return Buffer.from(canonicalBytes(entry));
};

interface Tampering {
  readonly name: string;
  readonly how: (operationId: string) => Promise<unknown>;
  /** What both say; `beside` is said of the database only. */
  readonly finds?: RegExp;
  readonly beside?: RegExp;
}

const tamperings: readonly Tampering[] = [
  {
    name: '1: the bytes of an entry edited',
    how: async (id) =>
      write(
        id,
        5,
        edited(await bytesOf(id, 5), (entry) => (entry['occurredAt'] = '2026-06-02T06:10:00-05:00')),
      ),
    finds: /entry 5\b/,
    beside: /entry 5: the leaf hash beside it is not that of its bytes/,
  },
  {
    name: '2: only a column beside the bytes edited',
    how: (id) =>
      owner.query(
        `UPDATE log_entry SET occurred_at = occurred_at - interval '1 day' WHERE operation_id = $1 AND seq = 6`,
        [id],
      ),
    beside: /entry 6: the time beside it at which it happened is not the one in its bytes/,
  },
  {
    name: '2: what an entry names taken out of the index',
    how: (id) => owner.query('DELETE FROM mention WHERE operation_id = $1 AND seq = 6', [id]),
    beside: /entry 6: what it names is not what is kept as named by it/,
  },
  {
    name: '2: the facts of a batch edited',
    how: (id) => owner.query(`UPDATE batch_facts SET facts = '{}' WHERE operation_id = $1`, [id]),
    beside: /batch 01976f00-0000-7000-8000-0000000000b1: was kept otherwise/,
  },
  {
    name: '3: an entry taken out',
    how: (id) => without(id, 4),
    finds: /the entry at place 4 has number 5 written in it/,
    beside: /entry 4 is missing/,
  },
  {
    name: '4: an entry taken out and the others moved up',
    how: async (id) => {
      await without(id, 4);
      for (let seq = 5; seq <= last; seq += 1)
        await owner.query('UPDATE log_entry SET seq = seq - 1 WHERE operation_id = $1 AND seq = $2', [id, seq]);
    },
    finds: /the entry at place 4 has number 5 written in it/,
    beside: /entry 4: it stands at 4, but its bytes say 5/,
  },
  {
    name: '5: two entries exchanged',
    how: async (id) => {
      await owner.query('UPDATE log_entry SET seq = 1000 WHERE operation_id = $1 AND seq = 3', [id]);
      await owner.query('UPDATE log_entry SET seq = 3 WHERE operation_id = $1 AND seq = 7', [id]);
      await owner.query('UPDATE log_entry SET seq = 7 WHERE operation_id = $1 AND seq = 1000', [id]);
    },
    finds: /the entry at place 3 has number 7 written in it/,
    beside: /entry 3: it stands at 3, but its bytes say 7/,
  },
  {
    name: '6: an entry put in, the rest moved on',
    how: async (id) => {
      for (let seq = last; seq >= 5; seq -= 1)
        await owner.query('UPDATE log_entry SET seq = seq + 1 WHERE operation_id = $1 AND seq = $2', [id, seq]);
      await owner.query(
        `INSERT INTO log_entry SELECT operation_id, 5, gen_random_uuid(), type, occurred_at, recorded_at, leaf_hash, bytes
           FROM log_entry WHERE operation_id = $1 AND seq = 4`,
        [id],
      );
    },
    finds: /the entry at place 5 has number 4 written in it/,
    beside: /entry 5: it stands at 5, but its bytes say 4/,
  },
  {
    name: '10: the end cut off',
    how: (id) => owner.query('DELETE FROM log_entry WHERE operation_id = $1 AND seq >= 9', [id]),
    finds: /covers 12 entries/,
    beside: /the head says 12 entries, but 9 are there/,
  },
  {
    name: '15: the leaf hash edited to fit the edited bytes',
    how: async (id) => {
      const bytes = edited(await bytesOf(id, 8), (entry) => (entry['origin'] = 'fromMemory'));
      await write(id, 8, bytes);
      await owner.query('UPDATE log_entry SET leaf_hash = $2 WHERE operation_id = $1 AND seq = 8', [
        id,
        Buffer.from(leafHash(bytes)),
      ]);
    },
    finds: /root/,
    beside: /node 1\/4 of the tree is not the one over entries 8 to 9/,
  },
  {
    name: '20: bytes that are not canonical',
    how: async (id) => write(id, 2, Buffer.from((await bytesOf(id, 2)).toString('utf8').replace('{', '{ '))),
    finds: /entry 2 is not canonical JSON/,
    beside: /entry 2: the leaf hash/,
  },
];

describe('a thief in the database', () => {
  it('an untouched log is self-consistent, and genuine with the checkpoint that was kept', async () => {
    const { operationId, kept } = await log();
    expect(await live(operationId)).toMatchObject({ code: 3, said: expect.stringContaining('SELF-CONSISTENT') });
    expect(await live(operationId, '--against', kept)).toMatchObject({
      code: 0,
      said: expect.stringContaining('GENUINE UP TO SIZE 12'),
    });
    expect(await exported(operationId, '--against', kept)).toMatchObject({ code: 0 });
  }, 120_000);

  it.each(tamperings)(
    '$name: found where it is',
    async ({ how, finds, beside }) => {
      const { operationId } = await log();
      await how(operationId);
      const [database, archive] = [await live(operationId), await exported(operationId)];
      expect(database.code).toBe(1);
      if (finds !== undefined) expect(database.said).toMatch(finds);
      if (beside !== undefined) expect(database.said).toMatch(beside);
      // What stands beside the entries is not handed out; the entries themselves are what they were.
      if (finds === undefined) expect(archive?.code).toBe(3);
      else {
        expect(archive?.code).toBe(1);
        expect(archive?.said).toMatch(finds);
      }
    },
    120_000,
  );

  it('16: a head edited to another root gets no signature, and the last one signed shows what is wrong', async () => {
    const { operationId } = await log();
    await owner.query('UPDATE log_head SET root = $2 WHERE operation_id = $1', [operationId, Buffer.alloc(32, 7)]);
    const answer = await api(`/${operationId}/log/checkpoint`);
    expect(answer.status).toBe(500);
    expect(await answer.json()).toMatchObject({ type: '/problems/log-disagrees' });
    expect(await exported(operationId)).toBeNull();
    const { code, said } = await live(operationId);
    expect(code).toBe(1);
    expect(said).toContain('the root in the head is not that of the entries');
  }, 120_000);

  it('11: an older database put in its place is not signed: the key remembers more entries', async () => {
    const { operationId } = await log();
    await shorten(operationId, 9);
    const answer = await api(`/${operationId}/log/checkpoint`);
    expect(answer.status).toBe(500);
    expect(await answer.text()).toContain('A checkpoint of 12 entries was signed, but the log has 9');
    const { code, said } = await live(operationId);
    expect(code).toBe(1);
    expect(said).toMatch(/12/);
  }, 120_000);
});

describe('the owner, who has the key as well', () => {
  it('1: edits an entry, computes everything anew and signs: self-consistent, found by the checkpoint kept outside', async () => {
    const { operationId, kept } = await log();
    const bytes = edited(await bytesOf(operationId, 5), (entry) => (entry['occurredAt'] = '2026-06-02T06:10:00-05:00'));
    await write(operationId, 5, bytes);
    await owner.query(
      `UPDATE log_entry SET occurred_at = '2026-06-02T06:10:00-05:00' WHERE operation_id = $1 AND seq = 5`,
      [operationId],
    );
    await recompute(operationId);
    const alone = await exported(operationId);
    expect(alone).toMatchObject({ code: 3, said: expect.stringContaining('SELF-CONSISTENT, BUT NOT WITNESSED') });
    const held = await exported(operationId, '--against', kept);
    expect(held?.code).toBe(1);
    expect(held?.said).toContain('DIFFERS');
    expect((await live(operationId, '--against', kept)).code).toBe(1);
  }, 120_000);

  it('10: cuts the end off and signs the shorter log: found by the checkpoint kept outside', async () => {
    const { operationId, kept } = await log();
    await shorten(operationId, 9);
    rmSync(join(home, 'data', 'log-signed', operationId));
    expect(await exported(operationId)).toMatchObject({ code: 3 });
    expect((await exported(operationId, '--against', kept))?.code).toBe(1);
    expect(readFileSync(kept, 'utf8')).toContain('\n12\n');
  }, 120_000);
});

/** What the owner's program would do: leaf hashes, tree and head from the entries; and the key made to forget. */
async function recompute(operationId: string): Promise<void> {
  const rows: { seq: string; bytes: Buffer }[] = await owner.query(
    'SELECT seq, bytes FROM log_entry WHERE operation_id = $1 ORDER BY seq',
    [operationId],
  );
  const leaves = rows.map(({ bytes }) => Buffer.from(leafHash(bytes)));
  for (const [seq, leaf] of leaves.entries())
    await owner.query('UPDATE log_entry SET leaf_hash = $3 WHERE operation_id = $1 AND seq = $2', [
      operationId,
      seq,
      leaf,
    ]);
  const { frontier, nodes } = extend(emptyFrontier, leaves);
  await owner.query('DELETE FROM tree_node WHERE operation_id = $1', [operationId]);
  for (const { level, index, hash } of nodes.filter((node) => node.level > 0))
    await owner.query('INSERT INTO tree_node VALUES ($1, $2, $3, $4)', [operationId, level, index, Buffer.from(hash)]);
  await owner.query(
    `UPDATE log_head SET size = $2, frontier = $3, root = $4,
            recorded_at = (SELECT max(recorded_at) FROM log_entry WHERE operation_id = $1)
      WHERE operation_id = $1`,
    [operationId, frontier.size, Buffer.concat(frontier.edge), Buffer.from(rootOf(frontier))],
  );
  rmSync(join(home, 'data', 'log-signed', operationId), { force: true });
}

/** The database as it was when the log had `size` entries; the key keeps what it remembers. */
async function shorten(operationId: string, size: number): Promise<void> {
  const memory = join(home, 'data', 'log-signed', operationId);
  const remembered = readFileSync(memory);
  await owner.query('DELETE FROM log_entry WHERE operation_id = $1 AND seq >= $2', [operationId, size]);
  await owner.query('DELETE FROM mention WHERE operation_id = $1 AND seq >= $2', [operationId, size]);
  await recompute(operationId);
  writeFileSync(memory, remembered);
}

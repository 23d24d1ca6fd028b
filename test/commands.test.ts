import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { spawn } from 'node:child_process';
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

// The verbs as a person types them, on an embedded database of their own.
const root = join(import.meta.dirname, '..');
let home: string;
let operationId = '';

beforeAll(() => {
  home = mkdtempSync(join(tmpdir(), 'furrowmark-commands-'));
  chmodSync(home, 0o755); // PostgreSQL's own user must be able to enter
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

function furrowmark(...args: string[]): Promise<{ code: number | null; out: string; err: string }> {
  const main = join(root, 'apps', 'api', 'src', 'commands', 'main.ts');
  const env = Object.fromEntries(Object.entries(process.env).filter(([name]) => name !== 'DATABASE_URL'));
  const child = spawn(process.execPath, ['--import', join(root, 'apps', 'api', 'register.mjs'), main, ...args], {
    env: { ...env, FURROWMARK_HOME: home },
    cwd: home,
  });
  let out = '';
  let err = '';
  child.stdout.on('data', (chunk) => (out += String(chunk)));
  child.stderr.on('data', (chunk) => (err += String(chunk)));
  return new Promise((done) => child.on('close', (code) => done({ code, out, err })));
}

const tap = (id: string, code: string, kind = 'well'): string =>
  JSON.stringify({
    id: `0197a000-0000-7000-8000-0000000000${id}`,
    type: 'source.registered',
    version: 1,
    occurredAt: '2026-04-20T09:00:00-04:00',
    data: { sourceId: `0197a000-0000-7000-8000-0000000001${id}`, code, kind, disinfectant: 'none' },
  });

describe('the command line', () => {
  it('makes an operation and shows its manager the token', async () => {
    const { code, out } = await furrowmark(
      'operation',
      'create',
      '--name',
      'Thistle End',
      '--time-zone',
      'America/Chicago',
    );
    expect(code).toBe(0);
    expect(out).toMatch(/^operation {2}[0-9a-f-]{36}\ntoken {6}\S{20,}\n$/);
    operationId = /[0-9a-f-]{36}/.exec(out)?.[0] ?? '';
  }, 60_000);

  it('refuses an operation in a time zone that does not exist, and says which member is wrong', async () => {
    const { code, err } = await furrowmark('operation', 'create', '--name', 'X', '--time-zone', 'America/Nowhere');
    expect(code).toBe(65);
    expect(err).toContain('timeZone');
  }, 60_000);

  it('records the good lines of a file and says of each wrong one its number, its member and the remedy', async () => {
    const file = join(home, 'records.ndjson');
    writeFileSync(file, [tap('01', 'W1'), '{"id":', '', tap('02', 'W2', 'pond'), tap('03', 'W3')].join('\n'));
    const { code, out, err } = await furrowmark('import', file, '--operation', operationId);
    expect(out).toBe('2 recorded, 0 already there, 2 refused\n');
    expect(code).toBe(1);
    const [second, fourth] = err.trim().split('\n');
    expect(second).toContain(`${file}:2: is not JSON`);
    expect(fourth).toContain(`${file}:4: /data/kind`);
    expect(fourth).toContain('municipal');
  }, 60_000);

  it('takes the same file again without recording anything twice', async () => {
    const file = join(home, 'again.ndjson');
    writeFileSync(file, [tap('01', 'W1'), tap('03', 'W3')].join('\r\n'));
    const { code, out } = await furrowmark('import', file, '--operation', operationId);
    expect(out).toBe('0 recorded, 2 already there, 0 refused\n');
    expect(code).toBe(0);
  }, 60_000);

  it('says so when the operation or the file is not there', async () => {
    const file = join(home, 'again.ndjson');
    const other = await furrowmark('import', file, '--operation', '0197a000-0000-7000-8000-00000000ffff');
    expect(other.code).toBe(65);
    expect(other.err).toContain('there is no operation 0197a000-0000-7000-8000-00000000ffff on this machine');
    const none = await furrowmark('import', join(home, 'none.ndjson'), '--operation', operationId);
    expect(none.code).toBe(65);
    expect(none.err).toContain('none.ndjson was not found');
  }, 60_000);

  // NIST Handbook 44, Appendix C: 1 US gallon = 231 cubic inches = 3.785 411 784 L, exactly.
  it('calculates with the same JSON as over HTTP', async () => {
    const { code, out } = await furrowmark('calc', 'convert', '{"quantity":{"value":1,"unit":"[gal_us]"},"to":"L"}');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ quantity: { value: 3.785411784, unit: 'L' } });
  }, 60_000);

  it('lists its verbs, also to whoever asks for one that does not exist', async () => {
    const { code, err, out } = await furrowmark('brew');
    expect(code).toBe(64);
    expect(err).toContain('There is no verb "brew"');
    expect(out).toContain('import FILE.ndjson');
  }, 60_000);
});

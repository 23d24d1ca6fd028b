import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { startEmbeddedDatabase, type EmbeddedDatabase } from '../apps/api/src/database/embedded.ts';
import { readyCluster } from './support/cluster.ts';
import { furrowmark as typed, type Said } from './support/command-line.ts';
import { temporaryFolder } from './support/folder.ts';

// The verbs as a person types them, on an embedded database of their own.
const home = temporaryFolder('commands');
const furrowmark = (...args: string[]): Promise<Said> => typed(home, ...args);
let database: EmbeddedDatabase;
let operationId = '';

// It runs on between the commands, as beside a service: starting it is tried elsewhere.
beforeAll(async () => {
  await readyCluster(join(home, 'data'));
  database = await startEmbeddedDatabase(join(home, 'data'));
}, 60_000);
afterAll(() => database.stop());

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

  it('writes an archive that the separate verifier finds consistent, and altered once a byte of an entry is changed', async () => {
    const archive = join(home, 'archive.tar');
    expect((await furrowmark('export', '--operation', operationId, '--out', archive)).code).toBe(0);
    const checked = await furrowmark('verify', archive);
    expect(checked.out).toContain('Entries: 3');
    expect(checked.code).toBe(3); // nobody outside has seen a checkpoint yet
    const bytes = readFileSync(archive);
    const at = bytes.indexOf('"code":"W3"');
    expect(at).toBeGreaterThan(0);
    bytes.write('"code":"W4"', at);
    writeFileSync(archive, bytes);
    const altered = await furrowmark('verify', archive);
    expect(altered.code).toBe(1);
    expect(altered.out).toMatch(/entry 2/);
  }, 60_000);

  it('writes a report, and refuses a kind or a thing that does not exist', async () => {
    const out = join(home, 'findings.pdf');
    expect((await furrowmark('report', 'findings', '--operation', operationId, '--out', out)).code).toBe(0);
    expect(readFileSync(out).subarray(0, 5).toString()).toBe('%PDF-');
    const kind = await furrowmark('report', 'weather', '--operation', operationId, '--out', out);
    expect(kind.code).toBe(65);
    expect(kind.err).toContain('there is no report "weather". There are: batch-record');
    const batch = await furrowmark(
      'report',
      'batch-record',
      '--operation',
      operationId,
      '--batch',
      'T-1',
      '--out',
      out,
    );
    expect(batch.err).toContain('there is no batch "T-1" in this operation');
    // What the help names is taken: here the report says itself what it misses.
    const help = await furrowmark('help', 'report');
    for (const option of ['--on', '--since', '--direction', '--table', '--paper']) expect(help.out).toContain(option);
    const trace = ['lot-trace', '--operation', operationId, '--direction', 'backward', '--out', out];
    const lot = await furrowmark('report', ...trace);
    expect(lot.code).toBe(65);
    expect(lot.err).not.toContain('direction');
  }, 60_000);

  it('computes anew what is kept beside the log, and finds no difference', async () => {
    const file = join(home, 'batch.ndjson');
    const opened = { batchId: '0197a000-0000-7000-8000-000000000201', code: 'T-1', kind: 'aeratedTea' };
    const record = { ...JSON.parse(tap('04', '')), type: 'batch.opened' };
    const vesselId = '0197a000-0000-7000-8000-000000000301';
    writeFileSync(file, JSON.stringify({ ...record, data: { ...opened, vesselId } }));
    await furrowmark('import', file, '--operation', operationId);
    const { code, out } = await furrowmark('rebuild', '--operation', operationId);
    expect(out).toBe('1 batches computed anew from 4 entries, 0 differed; 0 differences beside the entries\n');
    expect(code).toBe(0);
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

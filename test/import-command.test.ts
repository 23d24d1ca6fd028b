import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startEmbeddedDatabase, type EmbeddedDatabase } from '../apps/api/src/database/embedded.ts';
import { readyCluster } from './support/cluster.ts';
import { furrowmark as typed, type Said } from './support/command-line.ts';
import { temporaryFolder } from './support/folder.ts';

// Tables brought in as a person at a keyboard does it, on an embedded database of their own.
const home = temporaryFolder('import');
const furrowmark = (...args: string[]): Promise<Said> => typed(home, ...args);
let database: EmbeddedDatabase;
let operationId = '';

const file = (name: string, content: string | Uint8Array): string => {
  const path = join(home, name);
  writeFileSync(path, content);
  return path;
};
const lastLine = (text: string): string | undefined => text.trim().split('\n').at(-1);

beforeAll(async () => {
  await readyCluster(join(home, 'data'));
  database = await startEmbeddedDatabase(join(home, 'data'));
  const { out } = await furrowmark('operation', 'create', '--name', 'Thistle End', '--time-zone', 'America/Chicago');
  operationId = /[0-9a-f-]{36}/.exec(out)?.[0] ?? '';
}, 60_000);

afterAll(() => database.stop());

describe('furrowmark import --as', () => {
  it('reads a table as an old spreadsheet saved it, columns named by hand; taken twice it is recorded once', async () => {
    // windows-1252: ö is one byte.
    const path = file(
      'inputs.csv',
      Buffer.from('Kurz;Name;Art;Tier;Futter\nMK;Möhrenkompost;compost;no;no\n', 'latin1'),
    );
    const args = ['import', path, '--as', 'materials', '--operation', operationId];
    const asked = await furrowmark(...args);
    expect(asked.code).toBe(65);
    expect(asked.err).toContain('No column was found for “Code” (code)');
    const map = ['--map', 'code=Kurz, kind=Art, animalOrigin=Tier, microbialFood=Futter'];
    const first = await furrowmark(...args, ...map);
    expect(first.err).toContain('is read as windows-1252');
    expect([first.code, lastLine(first.out)]).toEqual([0, '1 recorded, 0 already there, 0 refused']);
    expect((await furrowmark(...args, ...map)).out).toContain('0 can be recorded, 1 are recorded already');
    const list = join(home, 'inputs.json');
    await furrowmark('report', 'changes', '--operation', operationId, '--since', '2020-01-01', '--out', list);
    expect(readFileSync(list, 'utf8')).toContain('Möhrenkompost');
  }, 120_000);

  it('records nothing while a row is wrong, unless the good ones are wanted', async () => {
    const path = file(
      'lots.csv',
      'Lot,Material,Quantity,Received\nA-1,MK,40 lb,2026-06-01\nA-2,turf,40 lb,2026-06-01\n',
    );
    const args = ['import', path, '--as', 'lots', '--operation', operationId];
    const all = await furrowmark(...args);
    expect(all.code).toBe(1);
    expect(all.err).toContain(`${path}:3: Material: “turf” is no registered material`);
    expect(lastLine(all.out)).toBe('Nothing was recorded. Mend the rows, or record the good ones with --only-good.');
    const looked = await furrowmark(...args, '--preview');
    expect(lastLine(looked.out)).toBe('1 can be recorded, 0 are recorded already, 0 left out, 1 wrong');
    const good = await furrowmark(...args, '--only-good');
    expect([good.code, lastLine(good.out)]).toEqual([1, '1 recorded, 0 already there, 0 refused']);
    expect(lastLine((await furrowmark(...args, '--preview')).out)).toBe(
      '0 can be recorded, 1 are recorded already, 0 left out, 1 wrong',
    );
  }, 120_000);

  it('reads a sheet of a spreadsheet, the units named by hand', async () => {
    const materials = file('compost.csv', 'Code,Name,Kind,Animal,Food\nWC,worm compost,vermicompost,yes,no\n');
    const kinds = ['--map', 'animalOrigin=Animal, microbialFood=Food'];
    await furrowmark('import', materials, '--as', 'materials', '--operation', operationId, ...kinds);
    const book = fileURLToPath(new URL('./checks/spreadsheet/lots.xlsx', import.meta.url));
    const args = ['import', book, '--as', 'lots', '--operation', operationId, '--units', 'quantity=lb'];
    const lots = await furrowmark(...args);
    expect(lots.err).toContain('sheet "Lots" is read (--sheet reads another: Read me, Probe)');
    expect([lots.code, lastLine(lots.out)]).toEqual([0, '2 recorded, 0 already there, 0 refused']);
    const none = await furrowmark(...args, '--sheet', 'Sheet 9');
    expect([none.code, none.err]).toEqual([65, expect.stringContaining('has no sheet "Sheet 9"')]);
  }, 120_000);

  it('says what an option must be, and that it belongs to --as', async () => {
    const path = file('x.csv', 'a\n1\n');
    const kind = await furrowmark('import', path, '--as', 'weather', '--operation', operationId);
    expect([kind.code, kind.err]).toEqual([65, expect.stringContaining('--as is one of lots, materials')]);
    const every = await furrowmark('import', path, '--as', 'readings', '--every', 'often', '--operation', operationId);
    expect([every.code, every.err]).toEqual([65, expect.stringContaining('--every')]);
    const stray = await furrowmark('import', path, '--dates', 'mdy', '--operation', operationId);
    expect([stray.code, stray.err]).toEqual([65, expect.stringContaining('--dates belongs to --as')]);
  }, 120_000);
});

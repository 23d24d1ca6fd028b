import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { canonicalBytes } from '@furrowmark/log';
import { python } from './log-outside/python.ts';
import { run, textOf, withPdf } from './pdf/programs.ts';
import { note } from './support/service.ts';
import { Farmhouse, size } from './tamper/live-log.ts';
import type { LiveLog } from './tamper/live-log.ts';

/*
 * The whole way of a checkpoint on paper: a report is fetched as PDF from the service, its first page drawn at 200 dots an
 * inch (pdftoppm, poppler), the code read by an outside reader (zbarimg, ZBar), and what it says held by the separate
 * verifier against what the service hands out later.
 */
let house: Farmhouse;
let log: LiveLog;
let key = '';
let scanned = '';
let footer = '';

beforeAll(async () => {
  house = await Farmhouse.open('tamper');
  log = await house.log();
  const pdf = await house.api(`/${log.operationId}/reports/findings.pdf?language=en`);
  expect(pdf.headers.get('content-type')).toBe('application/pdf');
  const bytes = new Uint8Array(await pdf.arrayBuffer());
  const read = withPdf(bytes, (path, folder) => {
    run('pdftoppm', '-r', '200', '-f', '1', '-l', '1', '-png', '-singlefile', path, join(folder, 'page'));
    return run('zbarimg', '--quiet', '--raw', join(folder, 'page.png'));
  });
  scanned = join(house.home, `${log.operationId}.scanned`);
  // The reader ends what it read with a line feed of its own; a signed note ends in exactly one.
  writeFileSync(scanned, `${read.trimEnd()}\n`);
  footer = textOf(bytes).replaceAll(/\s+/g, ' ');
  key = (await (await house.api(`/${log.operationId}/log/key`)).text()).trimEnd();
  await house.append(log.operationId, [note('recorded after the report was printed')]);
});
afterAll(() => house.close());

describe('the checkpoint on a printed report', () => {
  it('scanned, shows the log handed out later to be genuine up to the size it was printed at', async () => {
    const held = await house.exported(log.operationId, '--key', key, '--against', scanned);
    expect(held).toMatchObject({ code: 0, said: expect.stringContaining(`GENUINE UP TO SIZE ${size}`) });
    // And by the verifier that was written from the description of the format alone.
    const archive = join(house.home, `${log.operationId}.tar`);
    const theirs = python(archive, ['--key', key, '--against', scanned]);
    expect(theirs).toMatchObject({ code: 0, said: expect.stringContaining(`genuine up to size ${size}`) });
    expect(held?.said).toContain('1 entries after that are self-consistent, but not witnessed');
  });

  it('typed from the foot of a page, as size and root, does the same', async () => {
    const [, printedSize, root] = /log of (\d+) records · root (\S{43}=)/.exec(footer) ?? [];
    const held = await house.exported(log.operationId, '--key', key, '--against', `${printedSize}:${root}`);
    expect(held).toMatchObject({ code: 0, said: expect.stringContaining(`GENUINE UP TO SIZE ${size}`) });
  });

  it('is of this log only: of another one it says so', async () => {
    const other = await house.log();
    expect(await house.exported(other.operationId, '--against', scanned)).toMatchObject({
      code: 1,
      said: expect.stringContaining('is a checkpoint of another log'),
    });
  });

  it('finds what the owner rewrote and signed anew', async () => {
    await house.disarm();
    const entries = await house.entries(log.operationId);
    const lines = entries.map((entry) =>
      canonicalBytes(entry.seq === 5 ? { ...entry, occurredAt: '2026-06-02T06:10:00-05:00' } : entry),
    );
    await house.rewrite(log.operationId, lines);
    expect(await house.exported(log.operationId, '--key', key)).toMatchObject({ code: 3 });
    expect(await house.exported(log.operationId, '--key', key, '--against', scanned)).toMatchObject({ code: 1 });
  });
});

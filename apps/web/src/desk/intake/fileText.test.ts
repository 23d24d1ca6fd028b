import { readFileSync } from 'node:fs';
import { describe, expect, it } from '@jest/globals';
import { fileText } from './fileText.ts';

const bytes = (...values: readonly number[]): Blob => new Blob([new Uint8Array(values)]);

describe('a file as text', () => {
  it('is UTF-8 where it can be', async () => {
    expect(await fileText(new Blob(['código;30 °F']))).toEqual({ text: 'código;30 °F' });
  });
  // The Encoding Standard: 0xB0 is ° and 0xF3 is ó in windows-1252; neither stands alone in UTF-8.
  it('is windows-1252 where it cannot be UTF-8, as older spreadsheets write', async () => {
    expect(await fileText(bytes(0x33, 0xb0, 0x46, 0x20, 0xf3))).toEqual({ text: '3°F ó' });
  });
  it('is UTF-16 where a mark says so', async () => {
    expect(await fileText(bytes(0xff, 0xfe, 0x41, 0x00, 0xb0, 0x00))).toEqual({ text: 'A°' });
    expect(await fileText(bytes(0xfe, 0xff, 0x00, 0x41))).toEqual({ text: 'A' });
  });
  it('is one sheet of a spreadsheet, by name or the first with a table (test/checks/spreadsheet)', async () => {
    const file = new Blob([readFileSync(new URL('../../../../../test/checks/spreadsheet/lots.xlsx', import.meta.url))]);
    expect(await fileText(file)).toMatchObject({ sheet: 'Lots', others: ['Read me', 'Probe'] });
    expect(await fileText(file, 'Probe')).toMatchObject({ text: expect.stringContaining('06:10:00,7.4') });
  });
  it('is none where it is an older spreadsheet program’s own file, or a ZIP that is no spreadsheet', async () => {
    expect(await fileText(bytes(0x50, 0x4b, 0x03, 0x04))).toBeNull();
    expect(await fileText(bytes(0xd0, 0xcf, 0x11, 0xe0))).toBeNull();
  });
});

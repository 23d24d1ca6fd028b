import { readFileSync } from 'node:fs';
import { describe, expect, it } from '@jest/globals';
import { spreadsheetText } from './spreadsheet.ts';

const file = readFileSync(new URL('../../../../../test/checks/spreadsheet/lots.xlsx', import.meta.url));
const bytes = Uint8Array.from(file).buffer;

describe('a spreadsheet that another program wrote (test/checks/spreadsheet)', () => {
  it('is read as a table: the first sheet with more than one row; days as days, a formula as its value', async () => {
    expect(await spreadsheetText(bytes)).toEqual({
      sheet: 'Lots',
      others: ['Read me', 'Probe'],
      text: [
        'Lot no.,Material,Received,Quantity,Supplier lot',
        'WC-61,WC,2026-02-28,40,"S ""7"", blue"',
        // 0.1 + 0.2, with the 15 digits that a spreadsheet counts with.
        'WC-62,WC,2026-03-08,0.3,"Käse\nzweite Zeile"',
        '',
      ].join('\r\n'),
    });
  });

  it('gives the sheet that is asked for; a moment has its time', async () => {
    expect((await spreadsheetText(bytes, 'Probe'))?.text).toBe('Time,DO\r\n2026-06-03 06:10:00,7.4\r\n');
    expect(await spreadsheetText(bytes, 'Nothing')).toBeNull();
  });

  it.each([
    ['another ZIP', 'PK\u0003\u0004 no'],
    ['nothing', ''],
    ['a table as text', 'Lot no.,Material'],
  ])('%s is none', async (_, text) => {
    expect(await spreadsheetText(Uint8Array.from(Buffer.from(text)).buffer)).toBeNull();
  });
});

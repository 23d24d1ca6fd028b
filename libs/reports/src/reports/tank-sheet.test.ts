import { describe, expect, it } from '@jest/globals';
import { brew, farm, id, made, seasonOf, tableIn } from '../testing/season.ts';
import { tankSheet } from './tank-sheet.ts';

const season = seasonOf(...farm, ...brew);
const sheet = made(tankSheet, season, { batch: id('T-1') });

describe('the blank tank sheet', () => {
  it('has the batch, tank and water that are known, and a code that leads to the batch', () => {
    const facts = sheet.blocks.flatMap((block) => (block.kind === 'facts' ? block.items : []));
    expect(facts).toEqual(
      expect.arrayContaining([
        { term: 'Batch', value: 'T-1' },
        { term: 'Tank', value: 'Tote 1' },
        { term: 'Filled', value: '300 gal' },
      ]),
    );
    expect(sheet.blocks.find(({ kind }) => kind === 'qrCode')).toMatchObject({ text: `urn:uuid:${id('T-1')}` });
    const served = made(tankSheet, season, { batch: id('T-1') }, { origin: 'https://records.example' });
    expect(served.blocks.find(({ kind }) => kind === 'qrCode')).toMatchObject({
      text: `https://records.example/tank/${id('T-1')}`,
    });
  });

  it('has lines to write on, all of them empty', () => {
    for (const name of ['water-and-air', 'readings', 'draws']) {
      const { rows } = tableIn(sheet, name);
      expect(rows.length).toBeGreaterThan(4);
      expect(new Set(rows.flat().map(({ text }) => text.trim()))).toEqual(new Set(['']));
    }
  });
});

import { describe, expect, it } from '@jest/globals';
import { acres, at, brew, farm, gal, harvest, id, loads, made, printed, seasonOf, tableIn } from '../testing/season.ts';
import { seasonApplications } from './season-applications.ts';

const content = made(seasonApplications, seasonOf(...farm, ...brew, ...loads, ...harvest), {});

describe('the season application report', () => {
  it('has a line per application and field: date, batch, lots, volume, area, rate, method, crop, applicator with address', () => {
    expect(printed(tableIn(content, 'field-North'))[0]).toEqual([
      '2026-04-21',
      'A-1',
      'T-1',
      'WC-1',
      // 120 gal drawn, 8 gal dumped
      '112.0',
      '4.00',
      // 112 gal on 4 acres
      '28.0',
      'soil drench',
      'carrots',
      'Ines Harrow, 12 Quillfen Lane',
      // 21 April to 26 August: 9 + 31 + 30 + 31 + 26
      '127',
    ]);
  });

  it('splits a load over two fields by their areas, and says so', () => {
    // 150 gal on 1 and 2 acres
    expect(printed(tableIn(content, 'field-North'))[1]?.[4]).toBe('50.0');
    expect(printed(tableIn(content, 'field-East'))[0]?.[4]).toBe('100.0');
    expect(content.blocks).toContainEqual({ kind: 'paragraph', text: 'Shares between fields are computed by area.' });
  });

  it('has no days to harvest while nothing was harvested of that ground', () => {
    expect(printed(tableIn(content, 'field-East'))[0]?.[10]).toBe('–');
  });

  it('prints totals that are the sums of the lines as printed, also where every line was rounded', () => {
    const thirds = seasonOf(...farm, ...brew, [
      'application.made',
      '04-21 12:00',
      {
        applicationId: id('A-3'),
        targets: [1, 2, 3].map(() => ({ fieldId: id('North') })),
        draws: [{ batchId: id('T-1'), volume: gal(100) }],
        startedAt: at('04-21 11:00'),
        finishedAt: at('04-21 12:00'),
        method: 'foliar',
        applicator: id('Ines'),
      },
    ]);
    const table = tableIn(made(seasonApplications, thirds, {}), 'field-North');
    expect(printed(table).map((row) => row[4])).toEqual(['33.3', '33.3', '33.3']);
    expect(table.total?.[4]).toEqual({ text: '99.9', value: 99.9 });
  });

  it('takes the volume written for a target before any computed share', () => {
    const written = seasonOf(...farm, ...brew, [
      'application.made',
      '04-21 12:00',
      {
        applicationId: id('A-3'),
        targets: [
          { fieldId: id('North'), volume: gal(60), area: acres(1) },
          { fieldId: id('East'), volume: gal(30), area: acres(2) },
        ],
        draws: [{ batchId: id('T-1'), volume: gal(100) }],
        startedAt: at('04-21 11:00'),
        finishedAt: at('04-21 12:00'),
        method: 'foliar',
        applicator: id('Ines'),
      },
    ]);
    expect(printed(tableIn(made(seasonApplications, written, {}), 'field-East'))[0]?.[4]).toBe('30.0');
  });

  it('leaves out what started before or after the period, by the local day', () => {
    const season = seasonOf(...farm, ...brew, ...loads);
    expect(made(seasonApplications, season, { from: '2026-04-22' }).blocks).toContainEqual({
      kind: 'paragraph',
      text: 'Nothing was applied in this period.',
    });
    // 21 April 23:30 in New York is 22 April in Greenwich.
    expect(printed(tableIn(made(seasonApplications, season, { to: '2026-04-21' }), 'field-North'))).toHaveLength(2);
  });
});

import { describe, expect, it } from '@jest/globals';
import { acres, farm, id, made, printed, seasonOf, tableIn, wordsIn, type Line } from '../testing/season.ts';
import { neighboursAndBuffers } from './neighbours-and-buffers.ts';

/** A square of about 111 m, its south-west corner that many thousandths of a degree east of 0° on the equator. */
const outline = (east: number) => {
  const [west, far] = [east / 1000, Number(((east + 1) / 1000).toFixed(6))];
  return {
    type: 'Polygon',
    coordinates: [
      [
        [west, 0],
        [far, 0],
        [far, 0.001],
        [west, 0.001],
        [west, 0],
      ],
    ],
  };
};
const field = (name: string, landStatus: string, east: number, more: object = {}): Line => [
  'field.registered',
  '04-01 08:00',
  { fieldId: id(name), code: name, kind: 'field', area: acres(3), landStatus, boundary: outline(east), ...more },
];

describe('neighbours and buffers', () => {
  // A thousandth of a degree on the equator is 111.2 m; 0.4 of it 44.5 m.
  const season = seasonOf(
    ...farm,
    field('A', 'organic', 0, { buffer: 'hedge, 8 m', ownedBy: 'Quillfen Growers' }),
    field('B', 'conventional', 1.4),
    field('C', 'conventional', 4),
    field('D', 'organic', -1.4),
    ['field.exposed', '06-01 08:00', { fieldId: id('A'), substance: 'herbicide', how: 'drift', area: acres(0.2) }],
  );
  const content = made(neighboursAndBuffers, season, {});

  it('has other land of another status within 60 m, the nearest first', () => {
    expect(printed(tableIn(content, 'neighbours'))).toEqual([['A', 'B', 'conventional', '44', 'hedge, 8 m']]);
  });

  it('has each field with its buffer, owner and middle', () => {
    expect(printed(tableIn(content, 'fields'))[0]).toEqual([
      'A',
      'organic',
      'hedge, 8 m',
      'Quillfen Growers',
      '3 acre',
      '0.00050, 0.00050',
    ]);
  });

  it('names fields without a buffer and without an outline', () => {
    expect(wordsIn(content)).toContain('No buffer is recorded for: D, East, North.');
    expect(wordsIn(content)).toContain('No outline is recorded for: East, North.');
  });

  it('has what drifted onto a field in the period, and not outside it', () => {
    expect(printed(tableIn(content, 'exposures'))).toEqual([['2026-06-01', 'A', 'herbicide', 'drift', '0.2 acre']]);
    expect(printed(tableIn(made(neighboursAndBuffers, season, { from: '2026-06-02' }), 'exposures'))).toEqual([]);
  });

  it('shows the status as it is now, revised ones included', () => {
    const certified: Line = ['field.revised', '07-01 08:00', { fieldId: id('B'), landStatus: 'organic' }];
    const later = made(
      neighboursAndBuffers,
      seasonOf(field('A', 'organic', 0), field('B', 'conventional', 1.4), certified),
      {},
    );
    expect(printed(tableIn(later, 'neighbours'))).toEqual([]);
  });
});

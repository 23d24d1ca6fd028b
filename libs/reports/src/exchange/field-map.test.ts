import { describe, expect, it } from '@jest/globals';
import geographiclib from 'geographiclib-geodesic';
import { brew, farm, given, id, loads, seasonOf, type Line } from '../testing/season.ts';
import { fieldMap } from './field-map.ts';

/** Written clockwise, as people walk round a field. */
const walked = {
  type: 'Polygon',
  coordinates: [
    [
      [-76, 42],
      [-76, 42.002],
      [-75.998, 42.002],
      [-75.998, 42],
      [-76, 42],
    ],
  ],
};
const drawn: Line = ['field.revised', '04-02 08:00', { fieldId: id('North'), boundary: walked }];
const season = seasonOf(...farm, drawn, ...brew, ...loads);
const map = fieldMap(season, given);
const named = (code: string) => map.features.find(({ properties }) => properties.code === code);

describe('the fields as GeoJSON', () => {
  it('have outlines that run counterclockwise, longitude first, closed (RFC 7946, sections 3.1.1 and 3.1.6)', () => {
    const [ring = []] = named('North')?.geometry?.coordinates ?? [];
    const polygon = geographiclib.Geodesic.WGS84.Polygon(false);
    for (const [longitude = 0, latitude = 0] of ring.slice(0, -1)) polygon.AddPoint(latitude, longitude);
    expect(polygon.Compute(false, true).area).toBeGreaterThan(0);
    expect(ring[0]).toEqual([-76, 42]);
    expect(ring.at(-1)).toEqual(ring[0]);
  });

  it('are features without a geometry where no outline is recorded (section 3.2), and carry no crs (section 4)', () => {
    expect(named('East')).toMatchObject({ type: 'Feature', id: id('East'), geometry: null });
    expect(Object.keys(map)).toEqual(['type', 'features']);
  });

  it('have what was applied to each, in order of time, with batches and crops', () => {
    expect(named('North')?.properties.applications).toEqual([
      {
        applicationId: id('A-1'),
        code: 'A-1',
        startedAt: '2026-04-21T10:30:00-04:00',
        finishedAt: '2026-04-21T11:30:00-04:00',
        method: 'soilDrench',
        batches: ['T-1'],
        crops: ['carrots'],
      },
      expect.objectContaining({ applicationId: id('A-2'), crops: ['carrots'] }),
    ]);
    expect(named('East')?.properties).toMatchObject({
      landStatus: 'transition',
      lastAppliedAt: '2026-04-21T18:00:00-04:00',
    });
  });

  it('leave out applications before or after the period, and name no person', () => {
    const applied = (days: object) =>
      fieldMap(season, given, days).features.flatMap(({ properties }) =>
        properties.applications.map(({ code }) => code),
      );
    expect(applied({ from: '2026-04-22' })).toEqual([]);
    expect(applied({ to: '2026-04-20' })).toEqual([]);
    expect(applied({ from: '2026-04-21', to: '2026-04-21' })).toHaveLength(3);
    expect(JSON.stringify(map)).not.toContain(id('Ines'));
  });
});

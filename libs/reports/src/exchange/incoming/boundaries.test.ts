import { describe, expect, it } from '@jest/globals';
import geographiclib from 'geographiclib-geodesic';
import { farm, given, id, operation, seasonOf } from '../../testing/season.ts';
import { fieldMap } from '../field-map.ts';
import { importRequest, previewImport, type ImportPreview } from './index.ts';

const season = seasonOf(...farm);
const now = Date.parse('2026-05-10T12:00:00Z');
const preview = (json: unknown, more: object = {}, over = season): ImportPreview =>
  previewImport(
    importRequest.parse({ as: 'boundaries', text: typeof json === 'string' ? json : JSON.stringify(json), ...more }),
    {
      season: over,
      operationId: operation,
      now,
      newId: () => id('never'),
    },
  );
const problemsOf = ({ rows }: ImportPreview) =>
  rows.flatMap(({ line, problems }) => problems.map(({ column, detail }) => [line, column, detail]));
const clockwise = [
  [-76, 42],
  [-76, 42.002],
  [-75.998, 42.002],
  [-75.998, 42],
  [-76, 42],
];
const feature = (properties: object, coordinates: unknown = [clockwise], type = 'Polygon') => ({
  type: 'Feature',
  properties,
  geometry: { type, coordinates },
});
const collection = (...features: object[]) => ({ type: 'FeatureCollection', features });
const boundaryOf = (found: ImportPreview) => Object(Reflect.get(Object(found.rows[0]?.records[0]?.data), 'boundary'));

describe('outlines from GeoJSON', () => {
  it('revise the field that the property names, turned the right way round (RFC 7946, section 3.1.6)', () => {
    const found = preview(collection(feature({ name: 'north' })));
    expect(found.rows[0]?.records[0]).toMatchObject({
      type: 'field.revised',
      occurredAt: '2026-05-10T00:00:00-04:00',
      data: { fieldId: id('North') },
    });
    const polygon = geographiclib.Geodesic.WGS84.Polygon(false);
    for (const [longitude = 0, latitude = 0] of boundaryOf(found).coordinates[0].slice(0, -1))
      polygon.AddPoint(latitude, longitude);
    expect(polygon.Compute(false, true).area).toBeGreaterThan(0);
  });

  it('lose heights and digits that nobody measured', () => {
    const long = clockwise.map(([x = 0, y = 0]) => [x + 1 / 3_000_000, y, 211.5]);
    const found = preview(collection(feature({ code: 'North' }, [long])));
    expect(problemsOf(found)).toEqual([]);
    expect(boundaryOf(found).coordinates[0][0]).toEqual([-75.999999667, 42]);
  });

  it('of a field that is not registered need the status of its land', () => {
    const file = collection(feature({ code: 'West' }), feature({ code: 'North' }));
    expect(problemsOf(preview(file))).toEqual([[1, 'code', expect.stringContaining('“West” is no registered field')]]);
    const found = preview(file, { landStatus: 'transition' });
    expect(found.rows.map(({ records }) => records[0]?.type)).toEqual(['field.registered', 'field.revised']);
    expect(found.rows[0]?.records[0]?.data).toMatchObject({ code: 'West', landStatus: 'transition' });
  });

  it('that cross themselves, are open, have parts or lie in another system are refused in words', () => {
    const bow = [
      [-76, 42],
      [-75.998, 42.002],
      [-75.998, 42],
      [-76, 42.002],
      [-76, 42],
    ];
    const found = preview(
      collection(
        feature({ code: 'North' }, [bow]),
        feature({ code: 'East' }, [clockwise.slice(0, 4)]),
        feature({ code: 'A' }, [[clockwise], [clockwise]], 'MultiPolygon'),
        feature({ code: 'B' }, [0, 1], 'Point'),
        feature({ code: 'C' }, [
          [
            [500000, 4649776],
            [500100, 4649776],
            [500100, 4649876],
            [500000, 4649776],
          ],
        ]),
        feature({ code: 'North' }),
        feature({}),
      ),
    );
    expect(problemsOf(found)).toEqual([
      [1, 'geometry', expect.stringContaining('crosses itself')],
      [2, 'geometry', expect.stringContaining('not closed')],
      [3, 'geometry', expect.stringContaining('has 2 parts')],
      [4, 'geometry', expect.stringContaining('is no polygon')],
      [5, 'geometry', expect.stringContaining('longitude')],
      [6, 'code', 'repeats feature 1: leave one of them out'],
      [7, 'code', 'is empty: it must name the field'],
    ]);
    const utm = {
      ...collection(feature({ code: 'North' })),
      crs: { type: 'name', properties: { name: 'urn:ogc:def:crs:EPSG::32618' } },
    };
    expect(preview(utm).asks).toEqual([expect.stringContaining('not in WGS 84')]);
    expect(
      preview({ ...utm, crs: { type: 'name', properties: { name: 'urn:ogc:def:crs:OGC:1.3:CRS84' } } }).counts.good,
    ).toBe(1);
  });

  it('of files that are something else are asked about', () => {
    expect(preview('<kml/>').asks).toEqual([expect.stringContaining('The file is not JSON')]);
    expect(preview({ type: 'Topology' }).asks).toEqual([expect.stringContaining('no GeoJSON of fields')]);
    expect(preview(collection(feature({ plot: 'North' }))).asks).toEqual([
      'Which property names the field? The file has: plot.',
    ]);
    expect(preview(collection(feature({ plot: 'North' })), { property: 'plot' }).counts.good).toBe(1);
  });

  it('that the program wrote itself come in again as known, though they were walked the other way round', () => {
    const outline = { type: 'Polygon', coordinates: [clockwise] };
    const drawn = seasonOf(...farm, ['field.revised', '04-02 08:00', { fieldId: id('North'), boundary: outline }]);
    const found = preview(fieldMap(drawn, given), {}, drawn);
    // The East field has no outline to take.
    expect(found.rows.map(({ state }) => state)).toEqual(['wrong', 'known']);
  });
});

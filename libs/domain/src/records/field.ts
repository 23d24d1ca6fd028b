import { z } from 'zod';
import { later } from '../later.ts';
import { fieldId } from './ids.ts';
import { changesOf, changesSomething, date, label, retirement, words } from './members.ts';
import { area } from './quantitySchema.ts';

const MOST_POSITIONS = 1000;

/** Longitude, latitude and perhaps height, WGS 84 (RFC 7946 §3.1.1). */
const position = later(() =>
  z.array(z.number()).check(({ value, issues }) => {
    const [lon, lat] = value;
    const wrong =
      value.length < 2 || value.length > 3
        ? 'must be longitude, then latitude'
        : lon === undefined || Math.abs(lon) > 180
          ? 'has a longitude outside -180 to 180: write longitude first, then latitude'
          : lat === undefined || Math.abs(lat) > 90
            ? 'has a latitude outside -90 to 90: write longitude first, then latitude'
            : null;
    if (wrong) issues.push({ code: 'custom', input: value, path: [], message: wrong });
  }),
);

/** A closed ring (RFC 7946 §3.1.6): four or more positions, the last the same as the first. */
const ring = later(() =>
  z.array(position()).check(({ value, issues }) => {
    const first = value[0];
    const last = value.at(-1);
    if (value.length < 4 || !first || !last)
      issues.push({ code: 'custom', input: value, path: [], message: 'must have at least four positions' });
    else if (first.some((n, i) => last[i] !== n) || first.length !== last.length)
      issues.push({
        code: 'custom',
        input: value,
        path: [],
        message: 'must be closed: repeat its first position as its last',
      });
  }),
);

/** A GeoJSON polygon (RFC 7946 §3.1.6), its first ring the outline, further ones holes. */
export const boundary = later(() =>
  z
    .strictObject({
      type: z.literal('Polygon'),
      coordinates: z.array(ring()).min(1, 'must have an outline'),
    })
    .check(({ value, issues }) => {
      const positions = value.coordinates.reduce((sum, r) => sum + r.length, 0);
      if (positions > MOST_POSITIONS)
        issues.push({
          code: 'custom',
          input: value.coordinates,
          path: ['coordinates'],
          message: `has ${String(positions)} positions, ${String(MOST_POSITIONS)} are the most: simplify the outline`,
        });
    }),
);

const members = later(() => ({
  code: label,
  kind: z.enum(['field', 'bed', 'block', 'tunnel', 'bench', 'trays']),
  /** The field that a bed lies in. */
  parentId: fieldId.optional(),
  area: area().optional(),
  boundary: boundary().optional(),
  landStatus: z.enum(['organic', 'transition', 'conventional']),
  lastProhibitedOn: date.optional(),
  buffer: words.optional(),
  ownedBy: words.optional(),
}));

export const fieldRegistered = later(() => z.strictObject({ fieldId, ...members() }));
export const fieldRevised = later(() =>
  z.strictObject({ fieldId, ...changesOf(members()) }).check(changesSomething(1)),
);
export const fieldRetired = later(() => retirement('fieldId', fieldId));
/** A prohibited substance reached the ground. */
export const fieldExposed = later(() =>
  z.strictObject({
    fieldId,
    substance: label,
    how: z.enum(['applied', 'drift']),
    area: area().optional(),
  }),
);

import { asOf, calculations, isRefusal, parseDraft, startOfDay, zonedText } from '@furrowmark/domain';
import { z } from 'zod';
import { rightHanded, type Boundary } from '../field-geometry.ts';
import { registeredField } from './ground.ts';
import { idFrom } from './ids.ts';
import type { Setting } from './table.ts';
import { counted, type CellProblem, type ImportPreview, type PreviewRow } from './types.ts';

/** Features of a file at once. */
const most = 2_000;

/** Positions are rounded to a tenth of a millimetre: what converts coordinates writes digits that nobody measured. */
const places = 9;
const position = z
  .array(z.number())
  .min(2)
  .transform(([longitude = NaN, latitude = NaN]) => [longitude, latitude].map((each) => Number(each.toFixed(places))));
const rings = z.array(z.array(position)).min(1);
const geometry = z.discriminatedUnion('type', [
  z.looseObject({ type: z.literal('Polygon'), coordinates: rings }),
  z.looseObject({ type: z.literal('MultiPolygon'), coordinates: z.array(rings) }),
]);
const feature = z.looseObject({
  type: z.literal('Feature'),
  properties: z.record(z.string(), z.unknown()).nullable().optional(),
  geometry: z.unknown(),
});
const collection = z.looseObject({
  type: z.literal('FeatureCollection'),
  features: z.array(z.unknown()),
  crs: z
    .object({ properties: z.object({ name: z.string() }) })
    .nullable()
    .optional()
    .catch(null),
});

export interface BoundariesOrder {
  readonly text: string;
  /** The property that names the field; `code`, `name` or `field` where left out. */
  readonly property: string | undefined;
  /** Register fields that are not known, as land of this status. */
  readonly landStatus: 'organic' | 'transition' | 'conventional' | undefined;
  readonly on: string;
}

const usual = ['code', 'name', 'field', 'Name', 'NAME', 'Field', 'FIELD', 'id'];

/** Outlines of fields from a GeoJSON file (RFC 7946). A row is a feature; its line is its place in the file, from 1. */
export function previewBoundaries(order: BoundariesOrder, setting: Setting): ImportPreview {
  const features = featuresIn(order.text);
  if ('fault' in features) return previewOf([features.fault], [], []);
  const names = [
    ...new Set(features.list.flatMap((each) => Object.keys(feature.safeParse(each).data?.properties ?? {}))),
  ];
  const property = order.property ?? usual.find((name) => names.includes(name));
  if (property === undefined || !names.includes(property))
    return previewOf([`Which property names the field? The file has: ${names.join(', ') || 'none'}.`], names, []);
  const seen = new Map<string, number>();
  const rows = features.list.map((each, i) => rowOf(each, i + 1, property, seen, order, setting));
  return previewOf([], names, rows, property);
}

function featuresIn(text: string): { readonly list: readonly unknown[] } | { readonly fault: string } {
  let json: unknown;
  try {
    json = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return { fault: `The file is not JSON: ${error instanceof Error ? error.message : String(error)}.` };
  }
  const found = collection.safeParse(json);
  if (found.success) {
    const { crs, features } = found.data;
    // RFC 7946, section 4: WGS 84 only. Older files name it so.
    if (crs !== undefined && crs !== null && !/CRS84|4326/.test(crs.properties.name))
      return {
        fault: 'The file is not in WGS 84 (longitude and latitude), which GeoJSON asks for: export it in that system.',
      };
    if (features.length > most)
      return { fault: `The file has ${features.length} features; at most ${most} are read at once.` };
    return { list: features };
  }
  return feature.safeParse(json).success
    ? { list: [json] }
    : { fault: 'The file is no GeoJSON of fields: it must be a FeatureCollection or a Feature.' };
}

function rowOf(
  given: unknown,
  line: number,
  property: string,
  seen: Map<string, number>,
  order: BoundariesOrder,
  setting: Setting,
): PreviewRow {
  const problems: CellProblem[] = [];
  const wrong = (detail: string, column: string | null = 'geometry'): PreviewRow => ({
    line,
    state: 'wrong',
    records: [],
    problems: [...problems, { column, detail }],
  });
  const read = feature.safeParse(given);
  if (!read.success) return wrong('is no feature', null);
  const name: unknown = read.data.properties?.[property];
  const code = typeof name === 'string' ? name.trim() : typeof name === 'number' ? String(name) : '';
  if (code === '') return wrong('is empty: it must name the field', property);
  const before = seen.get(code.toLowerCase());
  if (before !== undefined) return wrong(`repeats feature ${before}: leave one of them out`, property);
  seen.set(code.toLowerCase(), line);
  const outline = outlineOf(read.data.geometry);
  if ('fault' in outline) return wrong(outline.fault);
  return recorded(code, outline.boundary, line, property, order, setting);
}

function outlineOf(given: unknown): { readonly boundary: Boundary } | { readonly fault: string } {
  const read = geometry.safeParse(given);
  if (!read.success) return { fault: 'is no polygon: draw the field’s outline as one' };
  const { type, coordinates } = read.data;
  if (type === 'MultiPolygon' && coordinates.length !== 1)
    return { fault: `has ${coordinates.length} parts: a field has one outline; register its parts as beds or blocks` };
  const boundary = { type: 'Polygon' as const, coordinates: type === 'Polygon' ? coordinates : (coordinates[0] ?? []) };
  // The same look as for an area: closed, in walking order, enclosing ground, holes inside.
  const area = calculations['field-area'].run({ boundary });
  if (isRefusal(area)) return { fault: area.refused.errors[0]?.detail ?? area.refused.detail };
  return { boundary: rightHanded(boundary) };
}

function recorded(
  code: string,
  boundary: Boundary,
  line: number,
  property: string,
  { on, landStatus }: BoundariesOrder,
  { season, operationId, now }: Setting,
): PreviewRow {
  const row = (
    state: PreviewRow['state'],
    problems: readonly CellProblem[] = [],
    records: PreviewRow['records'] = [],
  ): PreviewRow => ({ line, state, records, problems });
  const fieldId = registeredField(season, code);
  if (fieldId === undefined && landStatus === undefined)
    return row('wrong', [
      {
        column: property,
        detail: `“${code}” is no registered field: register it first, or say the status of the land to register it`,
      },
    ]);
  const field = fieldId === undefined ? undefined : season.field(fieldId);
  const there = field === undefined ? undefined : asOf(field, Infinity).boundary;
  // The same outline walked the other way round is the same outline.
  if (there !== undefined && JSON.stringify(rightHanded(there)) === JSON.stringify(boundary)) return row('known');
  const occurredAt = zonedText(startOfDay(on, season.timeZone), season.timeZone);
  const [type, data] =
    field === undefined
      ? [
          'field.registered',
          { fieldId: idFrom(operationId, 'fields', code), code, kind: 'field', landStatus, boundary },
        ]
      : ['field.revised', { fieldId: field.id, boundary }];
  const parsed = parseDraft(
    { id: idFrom(operationId, type, occurredAt, data), type, version: 1, occurredAt, data },
    { now },
  );
  if (!parsed.ok)
    return row(
      'wrong',
      parsed.problem.errors.map(({ detail }) => ({ column: 'geometry', detail })),
    );
  return row('good', [], [parsed.sent]);
}

const previewOf = (
  asks: readonly string[],
  header: readonly string[],
  rows: readonly PreviewRow[],
  property: string | null = null,
): ImportPreview => ({
  as: 'boundaries',
  delimiter: null,
  header,
  columns: [{ member: 'code', title: 'Field', needed: true, column: property }],
  asks,
  rows,
  counts: counted(rows),
  notes: [],
});

import { dateOn, isDate, offsetMinutesOf, parseInstant } from '@furrowmark/domain';
import { z } from 'zod';
import { previewBoundaries } from './boundaries.ts';
import { fields, plantings } from './ground.ts';
import type { TableKind } from './kind.ts';
import { lots } from './lots.ts';
import { materials } from './materials.ts';
import { people } from './people.ts';
import { previewReadings } from './readings.ts';
import { delimiters } from './sheet.ts';
import { previewTable, type Setting } from './table.ts';
import type { ImportPreview } from './types.ts';

const tables: readonly TableKind[] = [lots, materials, fields, plantings, people];
/** What a file may come in as. A further kind of table is its file and a word here. */
export const importKinds = ['lots', 'materials', 'fields', 'plantings', 'people', 'readings', 'boundaries'] as const;
export type ImportKind = (typeof importKinds)[number];

const day = z.string().refine(isDate, 'must be a day that exists, such as 2026-06-03');
const instant = z.string().transform((text, context) => {
  const at = parseInstant(text);
  if (at !== null) return at;
  context.addIssue({
    code: 'custom',
    message: 'must be a date and time with its offset, such as 2026-06-03T06:10:00-05:00',
  });
  return z.NEVER;
});
const uuid = z.string().regex(/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/, 'must be a UUID in lower case');
const short = z.string().max(1_000);

/** A file to look at, and what the sender says about it. Everything but `as` and `text` may be left out. */
export const importRequest = z.strictObject({
  as: z.enum(importKinds),
  /** The whole file. */
  text: z.string(),
  /** Which column serves which member, by its header; null: none. The rest is proposed. */
  columns: z.record(short, short.nullable()).default({}),
  delimiter: z.enum(delimiters).optional(),
  decimal: z.enum(['.', ',']).default('.'),
  /** Whether year, month or day comes first in dates like 6/3/2026. */
  dates: z.enum(['ymd', 'mdy', 'dmy']).optional(),
  /** Units of figures that carry none: `{"quantity": "lb"}`, `{"dissolvedOxygen": "mg/L", "temperature": "F"}`. */
  units: z.record(short, short).default({}),
  /** The day on which things are registered; today, where left out. */
  on: day.optional(),
  origin: z.enum(['observed', 'fromMemory', 'fromPaper', 'instrument']).default('fromPaper'),
  /** Readings: their batch and instrument, the bounds in time, and how many to take. */
  batchId: uuid.optional(),
  instrumentId: uuid.optional(),
  offset: z
    .string()
    .regex(/^[+-](0\d|1[0-4]):[0-5]\d$/, 'must be an offset such as -05:00')
    .optional(),
  from: instant.optional(),
  to: instant.optional(),
  everyMinutes: z.number().int().min(1).max(1_440).optional(),
  /** Boundaries: the property that names the field, and the status of land that is not registered yet. */
  property: short.optional(),
  landStatus: z.enum(['organic', 'transition', 'conventional']).optional(),
});
export type ImportRequest = z.output<typeof importRequest>;

/**
 * What a file would become, row by row. Pure: nothing is recorded; whoever accepts sends the records of the rows to the
 * log as any others.
 */
export function previewImport(request: ImportRequest, setting: Setting): ImportPreview {
  const { as, text, columns, delimiter, decimal, dates, units, origin, offset } = request;
  const on = request.on ?? dateOn(setting.now, setting.season.timeZone);
  const order = { text, delimiter, columns, on, origin, reading: { decimal, dates: dates ?? null, units } };
  if (as === 'boundaries') {
    const { property, landStatus } = request;
    return previewBoundaries({ text, property, landStatus, on }, setting);
  }
  if (as === 'readings') {
    const { batchId, instrumentId, from, to, everyMinutes } = request;
    const offsetMinutes = offset === undefined ? undefined : offsetMinutesOf(offset);
    return previewReadings({ ...order, batchId, instrumentId, from, to, everyMinutes, offsetMinutes }, setting);
  }
  const kind = tables.find((each) => each.as === as) ?? lots;
  return previewTable(kind, order, setting);
}

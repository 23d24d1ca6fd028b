import { importRequest } from '@furrowmark/reports';
import { calendarQuery, fieldsQuery } from '../exchange/index.ts';
import type { Route } from './route.ts';
import { listOf, object, schemaOf, text, uuid, whole } from './schemas.ts';

const row = object({
  line: whole,
  state: { enum: ['good', 'known', 'leftOut', 'wrong'] },
  records: listOf(object({ id: uuid, type: text, data: { type: 'object' } })),
  problems: listOf(object({ column: { type: ['string', 'null'] }, detail: text })),
});
const operation = '/api/v1/operations/{op}';

/** The operation's data in other people's formats, and theirs in records. */
export function exchangeRoutes(): Record<string, Record<string, Route>> {
  return {
    [`${operation}/fields.geojson`]: {
      get: {
        summary: 'The fields with what was applied to them, as GeoJSON',
        query: fieldsQuery,
        answer: object({ type: { const: 'FeatureCollection' }, features: listOf({ type: 'object' }) }),
        mediaType: 'application/geo+json',
      },
    },
    [`${operation}/deadlines.ics`]: {
      get: { summary: 'What is due, as iCalendar', query: calendarQuery, answer: text, mediaType: 'text/calendar' },
    },
    [`${operation}/import/preview`]: {
      post: {
        summary: 'What a file would become, row by row; nothing is recorded',
        body: schemaOf(importRequest),
        answer: object({
          as: text,
          header: listOf(text),
          columns: listOf({ type: 'object' }),
          asks: listOf(text),
          rows: listOf(row),
          counts: object({ good: whole, known: whole, leftOut: whole, wrong: whole }),
          notes: listOf(text),
        }),
      },
    },
  };
}

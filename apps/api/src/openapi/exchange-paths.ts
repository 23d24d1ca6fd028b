import { calendarQuery, fieldsQuery } from '../exchange/index.ts';
import type { Route } from './route.ts';
import { listOf, object, text } from './schemas.ts';

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
  };
}

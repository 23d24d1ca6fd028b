import type { Attempt } from './attempts.ts';
import { prototypeNames } from './hostile.ts';

const text = ({ body }: Attempt): string => (body === null ? '' : Buffer.from(body).toString('utf8'));
const isJson = ({ headers }: Attempt): boolean => headers['content-type'] === 'application/json';
const named = (attempt: Attempt, trick: string): boolean => attempt.trick.split(', ').includes(trick);

/** What any trial has to have tried, and how a request of that kind is known. */
export const mustBeTried: Readonly<Record<string, (attempt: Attempt) => boolean>> = {
  'a compressed bomb, said to be one': (attempt) =>
    named(attempt, 'a compressed bomb') && attempt.headers['content-encoding'] !== undefined,
  'a compressed bomb, not said to be one': (attempt) => named(attempt, 'a compressed bomb said to be JSON'),
  'a body in pieces': ({ pieces }) => pieces > 1,
  'a body in drips': (attempt) => named(attempt, 'in drips'),
  'a body cut off': ({ pieces, body }) => pieces === 0 && body !== null,
  'a body that is too large': ({ body }) => body !== null && body.length > 1024 * 1024,
  'deep nesting': (attempt) => isJson(attempt) && /(?:\[\s*){25}|(?:\{"[^"]*":){25}/.test(text(attempt)),
  'a file that is not what it says': (attempt) =>
    named(attempt, 'a hostile file') && attempt.route.endsWith('/documents'),
  'an archive that lies': (attempt) => named(attempt, 'a hostile file') && attempt.route.endsWith('/operations/import'),
  'a table that is none': (attempt) => attempt.route.endsWith('/import/preview') && text(attempt).includes('"text"'),
  'a formula in a text': (attempt) => isJson(attempt) && /"(?:=cmd|=HYPERLINK|@SUM|\\t=1)/.test(text(attempt)),
  'a name every object has, as a member': (attempt) =>
    isJson(attempt) && prototypeNames.some((name) => text(attempt).includes(`"${name}":`)),
  'a name every object has, in the address': ({ target }) => prototypeNames.some((name) => target.includes(name)),
  'text that no database keeps': (attempt) => isJson(attempt) && /\\u0000|\\ud800/.test(text(attempt)),
  'SQL in a text': (attempt) => isJson(attempt) && /DROP TABLE|pg_sleep/.test(text(attempt)),
};

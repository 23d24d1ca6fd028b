import { parse } from 'csv-parse/sync';
import { z } from 'zod';
import type { Attempt } from './attempts.ts';
import type { Reply } from './send.ts';

const problem = z.looseObject({
  type: z.string().startsWith('/problems/'),
  title: z.string().min(1),
  status: z.number(),
  detail: z.string().min(1),
  errors: z.array(z.looseObject({ detail: z.string(), pointer: z.string().optional() })),
});

/** What is wrong with an answer, whatever was asked; null where nothing is. */
export function faultOf(attempt: Attempt, reply: Reply): string | null {
  if (reply.kind === 'cut off here') return null;
  if (reply.kind === 'hung') return 'no answer';
  if (reply.kind !== 'answer') return 'the connection was closed without an answer';
  const { status, type, body, retryAfter } = reply;
  if (!(status >= 200 && status <= 599)) return `status ${status}`;
  if (status >= 500 && status !== 503) return `status ${status}`;
  if (status < 400) return type.startsWith('text/csv') ? formulaIn(body.toString('utf8')) : null;
  if ((status === 429 || status === 503) && !(Number(retryAfter) > 0)) return `${status} without Retry-After`;
  if (!type.startsWith('application/problem+json')) return `${status} as ${type || 'nothing'}`;
  if (attempt.method === 'HEAD') return null;
  const parsed = problem.safeParse(jsonOf(body));
  if (!parsed.success) return `${status} with a body that is no problem: ${body.toString().slice(0, 200)}`;
  if (parsed.data.status !== status) return `${status} whose body says ${parsed.data.status}`;
  // Nothing of the inside: no statement, no place in the program.
  const inside = /\bat (?:async )?\S+ \(|node_modules|\.ts:\d|QueryFailed|relation "|syntax error at or near/.exec(
    parsed.data.detail,
  );
  return inside === null ? null : `tells of the inside: ${inside[0]}`;
}

/**
 * What a spreadsheet would run rather than show, in a table handed out: a cell that begins with one of the signs that
 * OWASP's page on CSV injection lists, and is no number.
 */
function formulaIn(csv: string): string | null {
  const cells: string[][] = parse(csv, { relax_column_count: true });
  const found = cells.flat().find((cell) => /^[=+\-@\t\r\n＝＋－＠]/.test(cell) && !/^-?\d+(\.\d+)?$/.test(cell));
  return found === undefined ? null : `a cell that a spreadsheet runs: ${found.slice(0, 60)}`;
}

function jsonOf(body: Buffer): unknown {
  try {
    return JSON.parse(body.toString('utf8'));
  } catch {
    return undefined;
  }
}

import { isDate } from '@furrowmark/domain';
import { parseTilePath } from '@furrowmark/log';
import { reportKind } from '@furrowmark/reports';
import type { Request } from 'express';
import { z } from 'zod';
import { notFound, ProblemAnswer, underShortNames, uuidOf } from '../http/index.ts';
import type { Period, Reach } from './roles.ts';

interface Asked {
  readonly operationId: string;
  readonly request: Request;
  readonly reach: Reach;
  readonly looks: Looks;
}
type Look = (asked: Asked) => Promise<void> | void;

/** What the log says about what is within reach. */
export interface Looks {
  /** Some record within reach names this id. */
  named(operationId: string, id: string, reach: Reach): Promise<boolean>;
  document(operationId: string, sha256: string, reach: Reach): Promise<boolean>;
  entries(operationId: string, from: number, to: number, reach: Reach): Promise<boolean>;
}

const open: Look = () => undefined;
/** The endpoint itself keeps to the reach of the member. */
const bounded: Look = () => undefined;

const about =
  (parameter: string): Look =>
  async ({ operationId, request, reach, looks }) => {
    const id = uuidOf(request.params[parameter]);
    if (id === null || !(await looks.named(operationId, id, reach))) throw notFound();
  };

const report: Look = async ({ operationId, request, reach, looks }) => {
  const name = String(request.params['name']).replace(/\.[a-z]+$/, '');
  // Under the names that the report itself goes by: what is looked at here is what it is made of.
  const given = underShortNames(request.query);
  const asks = parametersOf(name);
  const within = (value: unknown): boolean =>
    typeof value === 'string' &&
    isDate(value) &&
    (reach.from === null || value >= reach.from) &&
    (reach.until === null || value <= reach.until);
  // What is left out means "all there is", and that is the link's period here.
  for (const [parameter, bound] of [
    ['from', reach.from],
    ['since', reach.from],
    ['to', reach.until],
    ['on', reach.until],
  ] as const) {
    if (!asks.has(parameter)) continue;
    if (given[parameter] === undefined && bound !== null) given[parameter] = bound;
    if (given[parameter] !== undefined && !within(given[parameter])) throw beyond(reach);
  }
  for (const parameter of ['batch', 'lot', 'field', 'planting', 'harvest']) {
    if (!asks.has(parameter) || given[parameter] === undefined) continue;
    const id = uuidOf(given[parameter]);
    if (id === null || !(await looks.named(operationId, id, reach))) throw notFound();
  }
  const limited = ['from', 'since', 'on', 'batch', 'lot', 'field', 'planting', 'harvest'];
  if (asks.size > 0 && !limited.some((parameter) => asks.has(parameter))) throw beyond(reach);
  Object.defineProperty(request, 'query', { value: given });
};

function parametersOf(kind: string): ReadonlySet<string> {
  const parameters = reportKind(kind)?.parameters;
  return new Set(parameters instanceof z.ZodObject ? Object.keys(parameters.shape) : []);
}

const entries: Look = async ({ operationId, request, reach, looks }) => {
  const [from, to] = [Number(request.query['from'] ?? 0), Number(request.query['to'] ?? Number.MAX_SAFE_INTEGER)];
  if (!(await looks.entries(operationId, from, to, reach))) throw beyond(reach);
};

/** Hashes tell nothing of what was recorded; bundles of entries do. */
const hashes: Look = ({ request, reach }) => {
  const tile = parseTilePath(/\/log\/(tile\/.*)$/.exec(request.path)?.[1] ?? '');
  if (!tile.ok || tile.value.level === 'entries') throw beyond(reach);
};

const document: Look = async ({ operationId, request, reach, looks }) => {
  const sha256 = String(request.params['sha256']).toLowerCase();
  if (!/^[0-9a-f]{64}$/.test(sha256) || !(await looks.document(operationId, sha256, reach))) throw notFound();
};

/**
 * What a reading link may read, by the address below the operation's. What is not named here it may not: an address that
 * is added later stays closed until somebody has thought about it.
 */
export const readable: Readonly<Record<string, Look>> = {
  records: bounded,
  batches: bounded,
  findings: bounded,
  'batches/:batchId': about('batchId'),
  'batches/:batchId/reviews': about('batchId'),
  'lots/:id/trace': about('id'),
  'batches/:id/trace': about('id'),
  'fields/:id/trace': about('id'),
  'plantings/:id/trace': about('id'),
  'harvests/:id/trace': about('id'),
  'rule-book': open,
  'rule-book/starter': open,
  members: open,
  reports: open,
  'reports/:name': report,
  'documents/:sha256': document,
  'log/checkpoint': open,
  'log/key': open,
  'log/proof/inclusion': open,
  'log/proof/consistency': open,
  'log/entries': entries,
  'log/tile/*path': hashes,
};

function beyond({ from, until }: Period): ProblemAnswer {
  const period = `${from === null ? 'up' : `from ${from}`}${until === null ? ' on' : ` to ${until}`}`;
  return new ProblemAnswer('forbidden', `This link reads ${period}. Ask the operation for one that reaches further.`);
}

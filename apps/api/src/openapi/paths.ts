import { calculations, planRequest } from '@furrowmark/domain';
import { reportKinds } from '@furrowmark/reports';
import { z } from 'zod';
import { batchesQuery, batchQuery } from '../controllers/batches.controller.ts';
import { findingsQuery } from '../controllers/findings.controller.ts';
import { consistencyQuery, entriesQuery, inclusionQuery } from '../controllers/log.controller.ts';
import { newOperation } from '../controllers/operations.controller.ts';
import { recordsQuery } from '../controllers/records.controller.ts';
import { formsOf, reportQuery } from '../controllers/reports.controller.ts';
import { forms } from '../reports/index.ts';
import { previewBody, ruleBookQuery } from '../controllers/rule-book.controller.ts';
import { traceable, traceQuery } from '../controllers/trace.controller.ts';
import { archiveRoutes } from './archive-paths.ts';
import { accessRoutes } from './access-paths.ts';
import { exchangeRoutes } from './exchange-paths.ts';
import { reportJobRoutes } from './report-job-paths.ts';
import type { Route } from './route.ts';
import { instant, listOf, object, reference, schemaOf, sha256, text, uuid, whole } from './schemas.ts';

type Json = Record<string, unknown>;

const operation = '/api/v1/operations/{op}';
const recordsBody = {
  ...object({ records: { type: 'array', maxItems: 1000, items: reference('Record') }, 'sentAt?': instant }),
  additionalProperties: false,
};
const cursor = { type: ['string', 'null'] };
const nothing: Json = { type: 'object' };

/** Every address, its methods, what it takes and gives. */
function routes(): Record<string, Record<string, Route>> {
  return {
    '/healthz': { get: { summary: 'The process answers', answer: object({ status: text }), open: true } },
    '/readyz': { get: { summary: 'Requests may come', answer: object({ status: text }), open: true } },
    '/metrics': { get: { summary: 'Prometheus text', answer: text, mediaType: 'text/plain', open: true } },
    '/api/v1/operations': {
      get: {
        summary: 'The operations of the signed-in person',
        answer: object({ operations: listOf(object({ operationId: uuid, name: text, timeZone: text, role: text })) }),
      },
      post: {
        summary: 'Make an operation; the caller becomes its manager',
        body: schemaOf(newOperation),
        answer: object({ operationId: uuid }),
        status: 201,
      },
    },
    [`${operation}/records`]: {
      get: {
        summary: 'The log as recorded, in the order of seq',
        query: recordsQuery,
        answer: object({ records: listOf(reference('LogEntry')), asOfSeq: { type: 'integer' }, next: cursor }),
      },
      post: { summary: 'Append records', body: recordsBody, answer: reference('Appended') },
    },
    [`${operation}/check`]: {
      post: {
        summary: 'What these records would break or come near; nothing is recorded',
        body: recordsBody,
        answer: object({
          outcomes: listOf(reference('Outcome')),
          refused: listOf(nothing),
          asOfSeq: { type: 'integer' },
        }),
      },
    },
    [`${operation}/batches`]: {
      get: {
        summary: 'Batches, the oldest first',
        query: batchesQuery,
        answer: object({ batches: listOf(nothing), asOfSeq: { type: 'integer' }, next: cursor }),
      },
    },
    [`${operation}/batches/{batchId}`]: {
      get: {
        summary: 'A batch: facts, outcomes, what is due, everything recorded',
        query: batchQuery,
        answer: object({
          batchId: uuid,
          code: text,
          kind: text,
          phase: text,
          asOfSeq: { type: 'integer' },
          facts: nothing,
          outcomes: listOf(reference('Outcome')),
          nextDue: { oneOf: [{ type: 'null' }, object({ ruleId: text, at: instant, what: text })] },
          timeline: listOf(nothing),
          reviews: listOf(nothing),
        }),
      },
    },
    [`${operation}/findings`]: {
      get: {
        summary: 'Findings, the oldest first',
        query: findingsQuery,
        answer: object({ findings: listOf(reference('Outcome')), asOfSeq: { type: 'integer' }, next: cursor }),
      },
    },
    [`${operation}/rule-book`]: {
      get: {
        summary: 'The rule book in force',
        query: ruleBookQuery,
        answer: object({ seq: { type: ['integer', 'null'] }, effectiveFrom: cursor, rules: listOf(nothing) }),
      },
    },
    [`${operation}/rule-book/starter`]: {
      get: {
        summary: 'A rule book to begin with, as entries to adopt; and the rules that are not judged now',
        answer: object({ ruleIds: listOf(text), entries: listOf(nothing), notSwitchedOn: listOf(nothing) }),
      },
    },
    [`${operation}/rule-book/upgrades`]: {
      get: {
        summary: 'What versions of the program with other rules judged otherwise, the latest first',
        answer: object({
          upgrades: listOf(
            object({
              ...{ foundAt: instant, size: whole, judgedAt: instant, outcomes: whole },
              ...{ revisions: { type: 'object' }, differences: listOf(nothing) },
            }),
          ),
        }),
      },
    },
    [`${operation}/deadlines`]: {
      get: {
        summary: 'What is to be done by when, the earliest first',
        answer: object({ deadlines: listOf(nothing) }),
      },
    },
    [`${operation}/rule-book/preview`]: {
      post: {
        summary: 'What would be judged otherwise; nothing is recorded',
        body: schemaOf(previewBody),
        answer: object({ changed: listOf(nothing), unchanged: whole }),
      },
    },
    ...Object.fromEntries(
      Object.keys(traceable).map((kind) => [
        `${operation}/${kind}/{id}/trace`,
        {
          get: {
            summary: `Where it went or came from: ${kind}`,
            query: traceQuery,
            answer: object({
              root: nothing,
              direction: text,
              nodes: listOf(nothing),
              edges: listOf(nothing),
              reached: nothing,
              unresolved: listOf(nothing),
              asOfSeq: { type: 'integer' },
            }),
          },
        },
      ]),
    ),
    [`${operation}/plan`]: {
      post: {
        summary: 'Plan brews backwards from the spray window; nothing is recorded',
        body: schemaOf(planRequest()),
        answer: object({ batches: listOf(nothing), warnings: listOf(text), total: nothing }),
      },
    },
    [`${operation}/kit`]: { get: { summary: 'What a phone needs to work without reception', answer: nothing } },
    [`${operation}/reports`]: { get: { summary: 'The kinds of report', answer: object({ reports: listOf(nothing) }) } },
    ...Object.fromEntries(
      reportKinds.map(({ kind, title, parameters }) => [
        `${operation}/reports/${kind}`,
        { get: { summary: title.en, query: withParameters(parameters), answer: nothing } },
      ]),
    ),
    ...Object.fromEntries(
      reportKinds.flatMap((each) =>
        formsOf(each).map((ending) => [
          `${operation}/reports/${each.kind}.${ending}`,
          {
            get: {
              summary: each.title.en,
              query: withParameters(each.parameters),
              answer: ending === 'json' || ending === 'jsonld' ? nothing : text,
              mediaType: forms[ending],
            },
          },
        ]),
      ),
    ),
    [`${operation}/log/checkpoint`]: {
      get: { summary: 'The newest checkpoint, a C2SP signed note', answer: text, mediaType: 'text/plain' },
    },
    [`${operation}/log/proof/inclusion`]: {
      get: {
        summary: 'The path from an entry to a root',
        query: inclusionQuery,
        answer: object({ leafHash: text, root: text, path: listOf(text) }),
      },
    },
    [`${operation}/log/proof/consistency`]: {
      get: {
        summary: 'What shows that one size extends another',
        query: consistencyQuery,
        answer: object({ path: listOf(text) }),
      },
    },
    [`${operation}/log/entries`]: {
      get: {
        summary: 'The exact canonical bytes, one entry a line',
        query: entriesQuery,
        answer: text,
        mediaType: 'application/x-ndjson',
      },
    },
    ...accessRoutes(),
    ...archiveRoutes(),
    ...exchangeRoutes(),
    ...reportJobRoutes(),
    ...Object.fromEntries(
      Object.values(calculations).map(({ name, title, input }) => [
        `/api/v1/calc/${name}`,
        { post: { summary: title, body: schemaOf(input()), answer: nothing, open: true } },
      ]),
    ),
  };
}

function withParameters(parameters: z.ZodType): z.ZodType {
  return z.intersection(reportQuery, parameters);
}

/** The paths of the description. */
export function paths(): Json {
  return Object.fromEntries(
    Object.entries(routes()).map(([path, methods]) => [
      path,
      Object.fromEntries(Object.entries(methods).map(([method, route]) => [method, described(path, route)])),
    ]),
  );
}

const contentOf = (schema: Json, types: readonly string[] = ['application/json']): Json =>
  Object.fromEntries(types.map((type) => [type, { schema }]));

function described(path: string, route: Route): Json {
  const inPath = [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => ({
    name,
    in: 'path',
    required: true,
    schema: name === 'sha256' ? sha256 : uuid,
  }));
  const answer = { [route.mediaType ?? 'application/json']: { schema: route.answer } };
  const problem = { content: { 'application/problem+json': { schema: reference('Problem') } } };
  return {
    summary: route.summary,
    ...(route.open ? { security: [] } : {}),
    parameters: [...inPath, ...(route.query === undefined ? [] : queryParameters(schemaOf(route.query)))],
    ...(route.body === undefined
      ? {}
      : { requestBody: { required: true, content: contentOf(route.body, route.bodyTypes) } }),
    responses: {
      [route.status ?? 200]: { description: route.summary, ...(route.answer === null ? {} : { content: answer }) },
      '4XX': { description: 'Not done; the problem says why and what to do', ...problem },
      '503': { description: 'Busy: send the same again after Retry-After seconds', ...problem },
    },
  };
}

const shape = z.looseObject({
  properties: z.record(z.string(), z.unknown()).optional(),
  required: z.array(z.string()).optional(),
  allOf: z.array(z.unknown()).optional(),
});

function queryParameters(schema: unknown): Json[] {
  const { properties = {}, required = [], allOf = [] } = shape.parse(schema);
  const own = Object.entries(properties).map(([name, each]) => ({
    name,
    in: 'query',
    required: required.includes(name),
    schema: each,
  }));
  return [...own, ...allOf.flatMap(queryParameters)];
}

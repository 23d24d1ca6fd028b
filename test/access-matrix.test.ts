import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { z } from 'zod';
import { TestService, type Answer, type TestOperation } from './support/service.ts';

/** Everybody who may stand before the door: the four roles, and what comes in their place. */
const callers = ['manager', 'reviewer', 'recorder', 'inspector', 'link', 'phone', 'pin', 'program'] as const;
type Caller = (typeof callers)[number];

const everybody = new Set<Caller>(callers);
const only = (...who: readonly Caller[]): ReadonlySet<Caller> => new Set(who);
const but = (...who: readonly Caller[]): ReadonlySet<Caller> => new Set(callers.filter((each) => !who.includes(each)));
/** The person with a PIN is a reviewer here; the program's token, a reviewer's, reads and records (at most a recorder). */
const writers = only('manager', 'reviewer', 'recorder', 'phone', 'pin', 'program');

/**
 * Who may use what, written down by hand: the first line that fits counts. An address that a later version adds is held
 * against the last lines, so it is open to members and closed to reading links until somebody writes otherwise here.
 */
const policy: readonly (readonly [method: RegExp, path: RegExp, who: ReadonlySet<Caller>])[] = [
  [/post/, /\/records$/, writers],
  [/post/, /\/documents$/, writers],
  [/post/, /\/reviews$/, only('manager', 'reviewer', 'pin')],
  [/post/, /\/members$/, only('manager')],
  [/put|delete/, /\/members\//, only('manager')],
  [/.*/, /\/(invitations|access-links|phones)(\/|$)/, only('manager')],
  [/post/, /\/(log\/key|take-over)$/, only('manager')],
  [/.*/, /\/log\/witnesses(\/|$)/, only('manager')],
  // An address that letters go to is its person's own affair.
  [/.*/, /\/alerts$/, only('manager', 'reviewer', 'recorder', 'inspector')],
  [/post/, /\/import$/, only('manager', 'reviewer', 'recorder', 'inspector')],
  [/get/, /\/rule-book\/upgrades$/, only('manager')],
  [/get/, /\/records\/\{recordId\}\/proof$/, but('link')],
  [/get/, /\/\{op\}\/(members|documents|records|batches|findings|rule-book|reports|log)(\/|$)/, everybody],
  [/get/, /\/(lots|fields|plantings|harvests)\/\{id\}\/trace$/, everybody],
  [/.*/, /\/\{op\}\//, but('link')],
  // What belongs to a person, not to an operation.
  [/get/, /^\/api\/v1\/(session|operations)$/, everybody],
  [/.*/, /^\/api\/v1\/session\/(people|pin)$/, only('phone')],
  [/delete/, /^\/api\/v1\/session$/, only('pin')],
  [/post/, /^\/api\/v1\/operations$/, only('manager', 'reviewer', 'recorder', 'inspector')],
  [/.*/, /^\/api\/v1\/account\//, only('manager', 'reviewer', 'recorder', 'inspector')],
];

interface Route {
  readonly method: string;
  readonly path: string;
  readonly open: boolean;
  readonly hasBody: boolean;
}
const description = z.object({
  paths: z.record(
    z.string(),
    z.record(
      z.string(),
      z.looseObject({ security: z.array(z.unknown()).optional(), requestBody: z.unknown().optional() }),
    ),
  ),
});

let service: TestService;
let op: TestOperation;
let foreign: TestOperation;
let tokens: Record<Caller, string>;
let routes: Route[];
let address = 0;

beforeAll(async () => {
  service = await TestService.start();
  [op, foreign] = [await service.operation(), await service.operation()];
  const base = `/api/v1/operations/${op.operationId}`;
  const made = async (path: string, token: string, body: object) => {
    const answer = await call('POST', path, token, body);
    expect([path, answer.status]).toEqual([path, 201]);
    return answer.json;
  };
  const manager = op.tokens.manager;
  const phone = await made(`${base}/phones`, manager, { label: 'phone at the tank' });
  const person = await made(`${base}/members`, manager, { name: 'Tobin Quay', role: 'reviewer', pin: '4831' });
  const pin = await made('/api/v1/session/pin', phone.token, { ...person, pin: '4831' });
  const program = await made('/api/v1/account/tokens', op.tokens.reviewer, {
    ...{ label: 'office program', operationId: op.operationId, role: 'recorder' },
  });
  const link = await made(`${base}/access-links`, manager, {});
  tokens = { ...op.tokens, link: link.token, phone: phone.token, pin: pin.token, program: program.token };
  const { paths } = description.parse((await service.get('/api/openapi.json')).json);
  routes = Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, { security, requestBody }]) => ({
      ...{ method, path, open: security?.length === 0, hasBody: requestBody !== undefined },
    })),
  );
}, 60_000);
afterAll(() => service.close());

/** As from another address each time: the limits of an address are not what is looked at here. */
const call = (method: string, path: string, token?: string, body?: unknown): Promise<Answer> =>
  service.call(method, path, token, body, { 'x-forwarded-for': `192.0.${(address += 1) >> 8}.${address & 255}` });

const subject = randomUUID();
const addressOf = ({ path }: Route, operationId: string): string =>
  path
    .replace('{op}', operationId)
    .replace('{sha256}', '0'.repeat(64))
    .replaceAll(/\{\w+\}/g, subject);

/**
 * With a body that is none, or on a paper that there is not, so that an answer of 400 shows that it was looked at, and
 * 401, 403, 404 that it was not. No report is drawn for that: eight callers would ask for all of them.
 */
const ask = (route: Route, operationId: string, token?: string): Promise<Answer> =>
  call(
    route.method.toUpperCase(),
    addressOf(route, operationId) + (/\/reports\/./.test(route.path) ? '?paper=none' : ''),
    token,
    route.hasBody ? '{' : undefined,
  );

const whoMay = ({ method, path }: Route): ReadonlySet<Caller> =>
  policy.find(([methods, paths]) => methods.test(method) && paths.test(path))?.[2] ?? only();

const guarded = (): Route[] => routes.filter(({ open }) => !open);
const inOperation = (): Route[] => guarded().filter(({ path }) => path.includes('{op}'));

/** Asks for many at a time. */
async function each<T>(items: readonly T[], work: (item: T) => Promise<void>): Promise<void> {
  for (let at = 0; at < items.length; at += 16) await Promise.all(items.slice(at, at + 16).map(work));
}

describe('the description', () => {
  it('has every address that the service answers at', () => {
    const router: unknown = Reflect.get(Object(service.service.context), 'getHttpAdapter')
      .call(service.service.context)
      .getInstance().router;
    const layers = z
      .object({ stack: z.array(z.looseObject({ route: z.looseObject({ path: z.string() }).optional() })) })
      .parse({ stack: Reflect.get(Object(router), 'stack') }).stack;
    const registered = layers.flatMap(({ route }) => route?.path ?? []).filter((path) => path.startsWith('/api/v1'));
    expect(registered.length).toBeGreaterThan(30);
    // The log's tiles are described by C2SP tlog-tiles, not by a schema.
    const undescribed = registered.filter((path) => {
      const pattern = new RegExp(`^${path.replaceAll(/:\w+/g, '[^/]+').replaceAll('.', '\\.')}$`);
      return !path.endsWith('/log/tile/*path') && !routes.some((route) => pattern.test(route.path));
    });
    expect(undescribed).toEqual([]);
  });

  it('has enough addresses for the rest to mean something', () => {
    expect(inOperation().length).toBeGreaterThan(50);
    expect(guarded().every((route) => whoMay(route).size > 0)).toBe(true);
  });
});

describe('without a token, or with one that nobody has', () => {
  it('every guarded address answers 401, in every operation, before it looks at anything', async () => {
    await each(guarded(), async (route) => {
      for (const operationId of [op.operationId, foreign.operationId, randomUUID(), 'not-a-uuid']) {
        for (const token of [undefined, 'fmt_nobody']) {
          const { status } = await ask(route, operationId, token);
          expect(`${route.method} ${route.path}: ${status}`).toBe(`${route.method} ${route.path}: 401`);
        }
      }
    });
  }, 120_000);
});

describe.each(callers)('%s', (caller) => {
  it('gets the same 404 for an operation of others and for one that does not exist', async () => {
    await each(inOperation(), async (route) => {
      const [others, none] = [
        await ask(route, foreign.operationId, tokens[caller]),
        await ask(route, randomUUID(), tokens[caller]),
      ];
      const named = `${route.method} ${route.path}`;
      expect([named, others.status, others.json]).toEqual([named, 404, none.json]);
      expect([named, none.status, plain(none)]).toEqual([named, 404, plain(others)]);
    });
  }, 120_000);

  it('in its own operation may do what the policy says and nothing else', async () => {
    const found: string[] = [];
    await each(guarded(), async (route) => {
      // Signing out would end what the other requests come with.
      if (route.method === 'delete' && route.path === '/api/v1/session' && whoMay(route).has(caller)) return;
      const { status } = await ask(route, op.operationId, tokens[caller]);
      const may = whoMay(route).has(caller);
      const looked = route.hasBody ? [400, 415] : [200, 204, 400, 404, 410];
      if (may ? !looked.includes(status) : status !== 403) {
        found.push(`${route.method} ${route.path}: ${status}, but ${caller} ${may ? 'may' : 'may not'}`);
      }
    });
    expect(found).toEqual([]);
  }, 120_000);
});

/** The headers that might tell two answers apart, without those that differ from one answer to the next anyway. */
function plain({ headers }: Answer): Record<string, string> {
  return Object.fromEntries(
    [...headers].filter(([name]) => !['date', 'x-request-id'].includes(name) && !name.startsWith('x-ratelimit')),
  );
}

import { brotliCompressSync, deflateSync, gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { z } from 'zod';
import { fitting } from './fitting.ts';
import { brokenText, hostileText, prototypeNames } from './hostile.ts';
import { hostileTable } from './hostile-tables.ts';
import { spoilt } from './spoil.ts';

/** One request as it goes over the wire. */
export interface Attempt {
  /** The address in the description, for the report. */
  readonly route: string;
  readonly method: string;
  /** The request target, byte for byte. */
  readonly target: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string | Uint8Array | null;
  /** In how many pieces the body is sent, with a pause between them; 0: the connection is cut before its end. */
  readonly pieces: number;
  /** What was done to it. */
  readonly trick: string;
}

/** What there is to be tried. */
export interface Ground {
  readonly operationId: string;
  readonly tokens: Readonly<Record<string, string>>;
  readonly stranger: string;
  readonly ids: readonly string[];
  /** A good record of each type. */
  readonly examples: readonly object[];
}

/** The description of the interface, as far as requests are made from it. */
const description = z.looseObject({
  paths: z.record(
    z.string(),
    z.record(
      z.string(),
      z.looseObject({
        parameters: z.array(z.looseObject({ name: z.string(), in: z.string(), schema: z.unknown() })).default([]),
        requestBody: z
          .looseObject({ content: z.record(z.string(), z.looseObject({ schema: z.unknown() })) })
          .optional(),
      }),
    ),
  ),
  components: z.looseObject({ schemas: z.record(z.string(), z.unknown()) }),
});
type Route = z.infer<typeof description>['paths'][string][string];

const spaces = Buffer.alloc(20 * 1024 * 1024, 0x20);
const bomb = gzipSync(spaces, { level: 9 });
/** The same under the other two codings, and one that is a bomb again when it is opened. */
const bombs = {
  gzip: bomb,
  br: brotliCompressSync(spaces),
  deflate: deflateSync(spaces),
  'gzip, gzip': gzipSync(bomb),
};
const oversized = JSON.stringify({ records: [], sentAt: 'x'.repeat(1_100_000) });
const thousandAndOne = JSON.stringify({ records: Array.from({ length: 1_001 }, () => 1) });

const oddPaths = [
  '..%2f..%2fetc%2fpasswd',
  '%2e%2e/%2e%2e/x',
  '../../x',
  '%00',
  '%',
  '%zz',
  '%c0%af',
  '%ed%a0%80',
  '%f0%9f%a7%aa',
  'a'.repeat(6_000),
  '%25'.repeat(500),
  '\\..\\x',
  ';x=1',
  '//x',
  "'%20OR%201=1--",
  ...prototypeNames,
];
const oddHeaders: Readonly<Record<string, string>>[] = [
  { accept: 'application/x-nothing' },
  { accept: ','.repeat(2_000) },
  { accept: 'application/json;q=abc, */*;q=-1' },
  { 'accept-language': '*-*-*;q=2,,,x' },
  { 'if-none-match': '*' },
  { 'if-none-match': '"'.repeat(500) },
  { 'if-modified-since': 'yesterday' },
  { range: 'bytes=9999999999-0,-1,x' },
  { cookie: 'furrowmark_session=; furrowmark_session=%00; __proto__=x; a=j:{"x":1}' },
  { cookie: `furrowmark_session=${'x'.repeat(5_000)}` },
  { authorization: 'Bearer' },
  { authorization: 'Bearer \u00e9\u00ff' },
  { authorization: `Bearer ${'A'.repeat(8_000)}` },
  { authorization: 'Basic OjpA' },
  { 'content-type': 'application/json; charset=utf-16' },
  { 'content-type': 'multipart/form-data' },
  { 'content-type': 'application/x-www-form-urlencoded' },
  { 'content-encoding': 'br, gzip, deflate' },
  { 'transfer-encoding': 'chunked', te: 'trailers' },
  { 'x-forwarded-for': "1.2.3.4, ' OR 1=1, ::1" },
  { 'x-forwarded-host': 'elsewhere.example', 'x-forwarded-proto': 'gopher' },
  { 'x-http-method-override': 'DELETE' },
  { expect: '200-maybe' },
  { upgrade: 'h2c', connection: 'upgrade' },
  { 'x-long': 'x'.repeat(20_000) },
  { origin: 'null', 'sec-fetch-site': 'cross-site' },
];
const documents: Uint8Array[] = [
  Buffer.from('%PDF-1.7\n1 0 obj<</OpenAction<</S/JavaScript/JS(app.alert(1))>>>>endobj'),
  Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>'),
  Buffer.from('<html><script>alert(1)</script></html>'),
  Buffer.concat([Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]), Buffer.alloc(4_000, 0xff)]),
  Buffer.concat([
    Buffer.from([0xff, 0xd8, 0xff, 0xe1, 0xff, 0xff]),
    Buffer.from('Exif\0\0MM\0*\xff\xff\xff\xff', 'latin1'),
  ]),
  Buffer.concat([Buffer.from('II*\0\x08\0\0\0\xff\xff', 'latin1'), Buffer.alloc(2_000, 0xff)]),
  Buffer.concat([Buffer.from('\0\0\0\x18ftypheic', 'latin1'), Buffer.alloc(100, 0xff)]),
  Buffer.from('RIFF\xff\xff\xff\xffWEBP', 'latin1'),
  Buffer.concat([Buffer.from([0x4d, 0x5a]), Buffer.alloc(512)]),
  Buffer.from([0x50, 0x4b, 3, 4, 0xff, 0xff]),
  Buffer.from('=cmd|calc,\u0000\r\n'),
  Buffer.from([0xff, 0xfe, 0x00]),
  Buffer.alloc(0),
  bomb,
];
/** Tapes that lie about what they hold: the name climbs out of its folder, the size is not a number. */
const archives: Uint8Array[] = [
  Buffer.alloc(1_024),
  tape('../../escaped', '77777777777'),
  tape('/etc/passwd', '00000000010'),
  tape('entries.ndjson', '-0000000001'),
  tape('entries.ndjson', '99999999999'),
  tape('\u0000', ''),
  bomb,
];

function tape(name: string, size: string): Buffer {
  const block = Buffer.alloc(1_536);
  block.write(name, 0, 'latin1');
  block.write('0000600\0', 100);
  block.write(size, 124);
  block.write('0', 156);
  block.write('ustar\x0000', 257, 'latin1');
  block.fill(0x20, 148, 156);
  const sum = block.subarray(0, 512).reduce((total, byte) => total + byte, 0);
  block.write(`${sum.toString(8).padStart(6, '0')}\0 `, 148);
  return block;
}

/** Requests to one address and method of the description, at its best a good one, mostly a bad one. */
function attemptsAt(path: string, method: string, route: Route, schemas: Record<string, unknown>, ground: Ground) {
  const ids = [...ground.ids];
  const segment = (name: string): fc.Arbitrary<string> =>
    name === 'op'
      ? fc.oneof({ arbitrary: fc.constant(ground.operationId), weight: 12 }, fc.uuid(), fc.constantFrom(...oddPaths))
      : fc.oneof(
          { arbitrary: fc.constantFrom(...ids), weight: 6 },
          fc.uuid(),
          fc.constantFrom(...oddPaths),
          hostileText.map(percent),
        );
  const names = [...path.matchAll(/\{(\w+)\}/g)].map(([, name = '']) => name);
  const filled = fc
    .tuple(...names.map(segment))
    .map((values) => values.reduce((made, value, i) => made.replace(`{${names[i]}}`, () => value), path));

  const parameters = route.parameters.filter((each) => each.in === 'query');
  const query = fc.oneof(
    { arbitrary: fc.constant(''), weight: 6 },
    {
      arbitrary: fc
        .tuple(
          fc.subarray(parameters),
          fc.oneof(
            { arbitrary: fc.constant([]), weight: 4 },
            fc.array(fc.tuple(fc.constantFrom(...prototypeNames, 'after', 'limit', 'x[y]', 'a.b'), hostileText), {
              maxLength: 2,
            }),
          ),
        )
        .chain(([some, strange]) =>
          fc
            .tuple(
              ...some.map((each) =>
                fc.oneof({ arbitrary: fitting(each.schema, schemas, ids).map(String), weight: 3 }, hostileText),
              ),
            )
            .map((values) => [...values.map((value, i) => [some[i]?.name ?? '', value]), ...strange]),
        )
        .map((pairs) => pairs.map(([name = '', value = '']) => `${percent(name)}=${percent(value)}`).join('&')),
      weight: 8,
    },
    fc.constantFrom('%', '&&&==', 'limit=1&limit=2', 'after[]=1', '__proto__[x]=1', 'x'.repeat(5_000), '?', 'at=%ff'),
  );

  const token = fc.oneof(
    { arbitrary: fc.constant(ground.tokens['manager']), weight: 10 },
    { arbitrary: fc.constantFrom(...Object.values(ground.tokens)), weight: 3 },
    fc.constantFrom<string | undefined>(undefined, '', 'x', ground.stranger, "' OR 1=1 --"),
  );
  const content = Object.entries(route.requestBody?.content ?? {})[0];
  const own = /\/(session|account)/.test(path);

  const body: fc.Arbitrary<Pick<Attempt, 'body' | 'pieces' | 'trick'> & { type: string; encoding?: string }> =
    content === undefined
      ? fc.oneof(
          { arbitrary: fc.constant({ body: null, pieces: 1, type: '', trick: 'no body' }), weight: 5 },
          brokenText.map((text) => ({ body: text, pieces: 1, type: 'application/json', trick: 'a body too many' })),
        )
      : content[0] !== 'application/json'
        ? fc
            .tuple(
              fc.constantFrom(...(path.endsWith('/import') ? archives : documents)),
              fc.constantFrom(...Object.keys(route.requestBody?.content ?? {}), 'text/html', 'x'),
              fc.constantFrom(1, 1, 1, 3, 0),
            )
            .map(([bytes, type, pieces]) => ({ body: bytes, pieces, type, trick: 'a hostile file' }))
        : jsonBodies(
            /\/(records|check)$/.test(path)
              ? fc.oneof(fitting(content[1].schema, schemas, ids), examplesOf(ground.examples))
              : path.endsWith('/import/preview')
                ? hostileTable(fitting(content[1].schema, schemas, ids))
                : fitting(content[1].schema, schemas, ids),
          );

  return fc
    .record({
      target: fc.tuple(filled, query).map(([made, asked]) => (asked === '' ? made : `${made}?${asked}`)),
      token: own ? fc.constantFrom(ground.stranger, undefined, 'x') : token,
      sent: body,
      method: fc.oneof(
        { arbitrary: fc.constant(method.toUpperCase()), weight: 20 },
        fc.constantFrom('OPTIONS', 'HEAD', 'PATCH', 'PUT', 'TRACE', 'PROPFIND', 'DELETE', 'M-SEARCH', 'GET', 'POST'),
      ),
      odd: fc.oneof({ arbitrary: fc.constant({}), weight: 8 }, fc.constantFrom(...oddHeaders)),
    })
    .map(({ target, token: bearer, sent, method: verb, odd }): Attempt => {
      // Nobody signs out or is put out by chance: that would end the trial, not try it.
      const verbNow = own && verb === 'DELETE' ? 'GET' : verb;
      return {
        route: `${method.toUpperCase()} ${path}`,
        method: verbNow,
        target,
        headers: {
          ...(bearer === undefined ? {} : { authorization: `Bearer ${bearer}` }),
          ...(sent.type === '' ? {} : { 'content-type': sent.type }),
          ...(sent.encoding === undefined ? {} : { 'content-encoding': sent.encoding }),
          ...odd,
        },
        body: sent.body,
        pieces: sent.pieces,
        trick: [sent.trick, ...Object.keys(odd), ...(verbNow === method.toUpperCase() ? [] : [verbNow])].join(', '),
      };
    });
}

/** Good records under new ids, as a phone would send them. */
const examplesOf = (examples: readonly object[]): fc.Arbitrary<unknown> =>
  fc
    .array(fc.tuple(fc.constantFrom(...examples), fc.uuid()), { minLength: 1, maxLength: 3 })
    .map((some) => ({ records: some.map(([each, id]) => ({ ...each, id })) }));

function jsonBodies(good: fc.Arbitrary<unknown>) {
  const json = { pieces: 1, type: 'application/json' };
  return fc.oneof(
    { arbitrary: good.map((value) => ({ ...json, body: JSON.stringify(value), trick: 'as described' })), weight: 4 },
    {
      arbitrary: good.chain(spoilt).map((value) => ({ ...json, body: JSON.stringify(value) ?? '', trick: 'spoilt' })),
      weight: 10,
    },
    { arbitrary: brokenText.map((text) => ({ ...json, body: text, trick: 'broken JSON' })), weight: 4 },
    good.map((value) => ({ ...json, body: JSON.stringify(value), pieces: 4, trick: 'slow' })),
    good.map((value) => ({ ...json, body: JSON.stringify(value), pieces: 30, trick: 'in drips' })),
    good.map((value) => ({ ...json, body: JSON.stringify(value), pieces: 0, trick: 'cut off' })),
    fc.constantFrom(
      { ...json, body: oversized, trick: 'oversized' },
      { ...json, body: thousandAndOne, trick: '1,001 records' },
      ...Object.entries(bombs).map(([encoding, body]) => ({ ...json, body, encoding, trick: 'a compressed bomb' })),
      { ...json, body: bomb, trick: 'a compressed bomb said to be JSON' },
    ),
  );
}

/** Percent-encoded; what is no Unicode text as its UTF-16 code would be in UTF-8, which it must not be. */
const percent = (text: string): string =>
  [...text]
    .map((each) => (/[\ud800-\udfff]/.test(each) && each.length === 1 ? '%ed%a0%80' : encodeURIComponent(each)))
    .join('')
    .slice(0, 7_000);

/** Requests to every address of the description. */
export function attemptsFrom(document: unknown, ground: Ground): { routes: string[]; each: fc.Arbitrary<Attempt>[] } {
  const { paths, components } = description.parse(document);
  const all = Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, route]) => ({ path, method, route })),
  );
  return {
    routes: all.map(({ path, method }) => `${method.toUpperCase()} ${path}`),
    each: all.map(({ path, method, route }) => attemptsAt(path, method, route, components.schemas, ground)),
  };
}

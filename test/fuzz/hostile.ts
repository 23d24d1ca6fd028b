import fc from 'fast-check';

/** Names that every object inherits, or that a program might use to reach into itself. */
export const prototypeNames = ['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty', 'valueOf'];

const texts = [
  '',
  ' ',
  '\u0000',
  'a\u0000b',
  '\ud800',
  'x\udfff\ud800',
  '\u202Egnp.exe',
  '\uFEFFtext',
  '\u2028\u2029',
  'Z\u0351\u0343\u0321'.repeat(40),
  '\u{1F9EA}'.repeat(500),
  'ﬁ\u0130ıſK',
  "'; DROP TABLE log_entry; --",
  "' OR '1'='1",
  '1); SELECT pg_sleep(5); --',
  "\\'; COPY log_entry TO PROGRAM 'id'; --",
  '$1',
  '$$ BEGIN RAISE; END $$',
  '%s%n%x',
  '=HYPERLINK("http://example.org","x")',
  "=cmd|' /C calc'!A0",
  '@SUM(1+1)',
  '+1-1',
  '-2+3',
  '\t=1',
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  '{{7*7}}${7*7}',
  '../../../../etc/passwd',
  '..\\..\\x',
  'file:///etc/passwd',
  'http://127.0.0.1:1/',
  'a\r\nSet-Cookie: x=1',
  'NaN',
  'Infinity',
  '1e999',
  '0x10',
  '9999-12-31T23:59:59Z',
  '-271821-04-20T00:00:00Z',
  '+275760-09-13T00:00:00.000Z',
  '2026-02-30T00:00:00Z',
  '2026-06-03T06:10:00+99:99',
  '2026-06-30T23:59:60Z',
  '0000-00-00',
  '00000000-0000-0000-0000-000000000000',
  'FFFFFFFF-FFFF-FFFF-FFFF-FFFFFFFFFFFF',
  'x'.repeat(10_001),
  'é'.repeat(40_000),
  ...prototypeNames,
];

const numbers = [
  0,
  -0,
  -1,
  0.1,
  1e-320,
  1e21,
  -1e21,
  1e308,
  -1e308,
  Number.MAX_SAFE_INTEGER,
  2 ** 53,
  2 ** 63,
  -(2 ** 63),
  2147483648,
  4294967296,
];

/** What no reader may trust in the place of a text. */
export const hostileText: fc.Arbitrary<string> = fc.oneof(
  { arbitrary: fc.constantFrom(...texts), weight: 4 },
  { arbitrary: fc.string({ unit: 'binary', maxLength: 60 }), weight: 1 },
);

export const hostileNumber: fc.Arbitrary<number> = fc.oneof(
  fc.constantFrom(...numbers),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
);

const nested = (depth: number, wrap: (inner: unknown) => unknown): unknown => {
  let value: unknown = 1;
  for (let i = 0; i < depth; i += 1) value = wrap(value);
  return value;
};

/** An object with a member of any name as its own, `__proto__` included, as `JSON.parse` makes it. */
export function withMember(object: Readonly<Record<string, unknown>>, name: string, value: unknown): object {
  const made = { ...object };
  Object.defineProperty(made, name, { value, enumerable: true, writable: true, configurable: true });
  return made;
}

/** Anything, in the place of anything. */
export const hostileValue: fc.Arbitrary<unknown> = fc.oneof(
  { arbitrary: hostileText, weight: 4 },
  { arbitrary: hostileNumber, weight: 2 },
  fc.constantFrom<unknown>(null, true, false, [], {}, [null], [[]], { length: 3 }, { toJSON: 1 }, { then: 1 }),
  fc.constantFrom(...prototypeNames).map((name) => withMember({}, name, { polluted: true })),
  fc.integer({ min: 2, max: 40 }).map((depth) => nested(depth, (inner) => [inner])),
  fc.integer({ min: 2, max: 40 }).map((depth) => nested(depth, (inner) => ({ data: inner }))),
  fc.constant(Array.from({ length: 2_000 }, (_, i) => i)),
  fc.constant(Object.fromEntries(Array.from({ length: 500 }, (_, i) => [`member${i}`, i]))),
  fc.jsonValue({ maxDepth: 4 }),
);

/** Bodies that are no JSON, or JSON that hardly anybody expects. */
export const brokenText: fc.Arbitrary<string | Uint8Array> = fc.oneof(
  fc.constantFrom<string | Uint8Array>(
    '',
    '{',
    '}',
    '{"records":[',
    '{"records":[{}]',
    '{"a":1,}',
    "{'a':1}",
    'undefined',
    'NaN',
    '[1e999]',
    '{"records":1e999}',
    '{"value":1e-999999}',
    `{"value":${'9'.repeat(5_000)}}`,
    '-',
    '"\\ud800"',
    '"\\u0000"',
    '"\\x41"',
    '{"a":1}{"b":2}',
    '{"records":[],"records":[{}]}',
    '{"__proto__":{"records":[]}}',
    '\uFEFF{}',
    '/* */{}',
    '<?xml version="1.0"?><!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/passwd">]><x>&e;</x>',
    '['.repeat(50_000),
    `${'['.repeat(21)}${']'.repeat(21)}`,
    `${'{"a":'.repeat(300)}1${'}'.repeat(300)}`,
    `["${'\\u0041'.repeat(100_000)}"]`,
    new Uint8Array([0xff, 0xfe, 0x7b, 0x00]),
    new Uint8Array([0x22, 0xc0, 0xaf, 0x22]), // an overlong "/"
    new Uint8Array([0x22, 0xed, 0xa0, 0x80, 0x22]), // a surrogate in UTF-8
    new Uint8Array([0x22, 0xf5, 0x80, 0x80, 0x80, 0x22]), // beyond U+10FFFF
    new Uint8Array([0x22, 0xe2, 0x82, 0x22]), // cut off
  ),
  fc.uint8Array({ maxLength: 200 }),
  fc.json().map((text) => text.slice(0, -1)),
);

import fc from 'fast-check';
import { hostileText } from './hostile.ts';

const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;

/** Files that call themselves tables: what a spreadsheet, a logger or somebody with bad intentions may have written. */
const tables: fc.Arbitrary<string> = fc.oneof(
  fc.constantFrom(
    '',
    '\r\n\r\n',
    '\uFEFF',
    'a',
    ','.repeat(20_000),
    `${'c,'.repeat(2_000)}\n`.repeat(20),
    'Code,Name\n"never closed',
    'Code,Name\n"a"b,c\n',
    'Code,Code,Code\n1,2,3\n',
    '__proto__,constructor,toString\nx,y,z\n',
    'Code;Name\tKind|Animal,x\n',
    'a\rb\rc',
    'a\u0000b,c\n\u0000,\u0000\n',
    'PK\u0003\u0004\u0014\u0000\u0006\u0000',
    `x\n${'"'.repeat(100_001)}`,
    `Time,DO\n${'2026-06-03 06:10,7.4\n'.repeat(3_000)}`,
    '{"type":"FeatureCollection","features":[{"type":"Feature","geometry":{"type":"Polygon","coordinates":[[]]}}]}',
    '{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"__proto__":1},"geometry":null}]}',
    `{"type":"Polygon","coordinates":${'['.repeat(5_000)}${']'.repeat(5_000)}}`,
    '{"type":"Polygon","coordinates":[[[1e999,0],[0,91],[181,0],[1e999,0]]]}',
  ),
  fc
    .array(fc.array(hostileText, { minLength: 1, maxLength: 6 }), { minLength: 1, maxLength: 8 })
    .map((rows) => rows.map((row) => row.map(quoted).join(',')).join('\r\n')),
  // Columns as they should be, and under them what should not.
  fc
    .array(fc.tuple(hostileText, hostileText, hostileText), { maxLength: 6 })
    .map((rows) => ['Code,Name,Kind', ...rows.map((row) => row.map(quoted).join(','))].join('\n')),
);

/** A good request to look at a table, with such a file in it. */
export const hostileTable = (good: fc.Arbitrary<unknown>): fc.Arbitrary<unknown> =>
  fc.tuple(good, tables).map(([request, text]) => ({ ...Object(request), text }));

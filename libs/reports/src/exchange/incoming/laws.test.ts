import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { parseDraft } from '@furrowmark/domain';
import { brew, farm, id, operation, seasonOf } from '../../testing/season.ts';
import { importKinds, importRequest, previewImport, type ImportPreview } from './index.ts';

const season = seasonOf(...farm, ...brew);
const now = Date.parse('2026-05-10T12:00:00Z');
let count = 0;
const preview = (request: unknown): ImportPreview =>
  previewImport(importRequest.parse(request), {
    season,
    operationId: operation,
    now,
    newId: () => id(`new ${(count += 1)}`),
  });

const cell = fc.oneof(
  fc.constantFrom(
    'A',
    'WC',
    'MO',
    'North',
    '10 lb',
    '1,250',
    '-3',
    '2026-04-12',
    '6/3/2026',
    '2026-04-20 10:00',
    '8.1',
    'yes',
    'organic',
    'compost',
    'root',
    '=1+1',
    '"',
    "'",
    '',
  ),
  fc.string({ unit: 'binary', maxLength: 12 }),
);
const header = fc.constantFrom(
  'code,material,quantity,date',
  'code,name,kind,animal origin,microbial food',
  'field,land status,area,within',
  'field,crop,part,planted',
  'name,address',
  'time,DO (mg/L),temp (F)',
);
const table = fc
  .tuple(header, fc.array(fc.array(cell, { maxLength: 6 }), { maxLength: 8 }))
  .map(([first, rows]) => [first, ...rows.map((row) => row.join(','))].join('\n'));
const json = fc
  .json({ maxDepth: 6 })
  .map(
    (text) =>
      `{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"code":"North"},"geometry":${text}}]}`,
  );
const request = fc.record({
  as: fc.constantFrom(...importKinds),
  text: fc.oneof(table, json, fc.string({ unit: 'binary' })),
  batchId: fc.constant(id('T-1')),
});

describe('whatever is sent', () => {
  it('is answered, and what may be accepted the log would take', () => {
    fc.assert(
      fc.property(request, (sent) => {
        const { rows, counts } = preview(sent);
        expect(Object.values(counts).reduce((sum, each) => sum + each, 0)).toBe(rows.length);
        for (const { state, records, problems } of rows) {
          expect(records.length > 0).toBe(state === 'good');
          expect(problems.length > 0).toBe(state === 'wrong');
          for (const record of records) expect(parseDraft(record, { now })).toMatchObject({ ok: true });
        }
      }),
      { numRuns: 1_000 },
    );
  });

  it('takes no longer for being long: 60,000 marks in a row are answered at once', () => {
    for (const mark of ['(', '1', '"', '@', 'a@', ' ', '\n', '1,', '9'.repeat(400) + '\n']) {
      const text = mark.repeat(Math.floor(60_000 / mark.length));
      for (const as of ['lots', 'people', 'readings', 'boundaries']) {
        const began = process.cpuUsage();
        preview({ as, text, batchId: id('T-1') });
        preview({
          as,
          text: `code,material,quantity,date,name,time,DO (mg/L),field,land status\n${text}`,
          batchId: id('T-1'),
        });
        expect({ mark: mark.slice(0, 4), as, slow: process.cpuUsage(began).user > 8_000_000 }).toEqual({
          mark: mark.slice(0, 4),
          as,
          slow: false,
        });
      }
    }
  }, 120_000);
});

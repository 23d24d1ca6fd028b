import { describe, expect, it } from '@jest/globals';
import { reportKind, reportKinds } from './catalogue.ts';
import { tablesOf } from './tables.ts';
import { isRefusal } from './reports/kind.ts';
import { brew, farm, given, harvest, id, loads, seasonOf, wordsIn } from './testing/season.ts';

const season = seasonOf(...farm, ...brew, ...loads, ...harvest);
const parameters: Readonly<Record<string, object>> = {
  'batch-record': { batch: id('T-1') },
  'lot-trace': { lot: id('WC-1') },
  'recall-sheet': { lot: id('WC-1') },
  'harvest-applications': { harvest: id('H-1') },
  'field-history': { field: id('North') },
  'tank-sheet': { batch: id('T-1') },
};
const cases = reportKinds.flatMap((kind) => (['en', 'es'] as const).map((language) => ({ kind, language })));

describe.each(cases)('$kind.kind in $language', ({ kind, language }) => {
  const content = kind.content(season, parameters[kind.kind] ?? {}, { ...given, language });

  it('is made, and begins by saying that it certifies nothing', () => {
    if (isRefusal(content)) throw new Error(JSON.stringify(content));
    expect(content.language).toBe(language);
    expect(content.notice).toMatch(language === 'en' ? /does not certify/ : /no certifica/);
    expect(content.preparedAt).toContain('2026-11-02 10:15 EST');
  });

  it('never says safe, compliant or pass', () => {
    expect(wordsIn(isRefusal(content) ? expectNever() : content)).not.toMatch(
      /\b(safe|compliant|passe[sd]?|pass|cumple con la norma|seguro)\b/i,
    );
  });

  it('has rows as long as their columns', () => {
    if (isRefusal(content)) return;
    for (const block of content.blocks) {
      if (block.kind !== 'table') continue;
      for (const row of [...block.rows, ...(block.total === undefined ? [] : [block.total])]) {
        expect({ table: block.name, cells: row.length }).toEqual({ table: block.name, cells: block.columns.length });
      }
    }
  });

  it('has totals that are the sums of the lines as printed', () => {
    if (isRefusal(content)) return;
    const number = (text: string | undefined): number =>
      Number((text ?? '').replaceAll(',', '').replace('−', '-')) || 0;
    for (const { name, rows, total } of tablesOf(content)) {
      total?.forEach((cell, column) => {
        if (typeof cell.value !== 'number') return;
        const sum = rows.reduce((all, row) => all + number(row[column]?.text), 0);
        expect({ name, column, total: number(cell.text) }).toEqual({ name, column, total: Number(sum.toFixed(6)) });
      });
    }
  });

  it('is the same again: nothing of it depends on the clock or on chance', () => {
    expect(kind.content(season, parameters[kind.kind] ?? {}, { ...given, language })).toEqual(content);
  });

  it('stands on an empty log, or says that the thing is not known', () => {
    const empty = kind.content(seasonOf(), parameters[kind.kind] ?? {}, { ...given, language });
    if (kind.kind in parameters) expect(empty).toEqual({ reason: 'unknown', faults: [] });
    else expect(isRefusal(empty)).toBe(false);
  });
});

function expectNever(): never {
  throw new Error('refused');
}

describe('parameters', () => {
  it('are refused by member and in words', () => {
    expect(reportKind('batch-record')?.content(season, { batch: 'T-1' }, given)).toEqual({
      reason: 'parameters',
      faults: [{ parameter: 'batch', detail: 'must be a UUID in lower case' }],
    });
    expect(reportKind('findings')?.content(season, { from: '2026-02-30' }, given)).toMatchObject({
      reason: 'parameters',
      faults: [{ parameter: 'from' }],
    });
    expect(reportKind('stock')?.content(season, { when: 'now' }, given)).toMatchObject({
      reason: 'parameters',
      faults: [{ parameter: 'when', detail: expect.stringContaining('leave it out') }],
    });
  });

  it('a period that ends before it begins is refused', () => {
    for (const kind of ['season-applications', 'findings']) {
      expect(reportKind(kind)?.content(season, { from: '2026-05-02', to: '2026-05-01' }, given)).toMatchObject({
        reason: 'parameters',
      });
    }
  });
});

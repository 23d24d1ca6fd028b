import { describe, expect, it } from '@jest/globals';
import { readFileSync } from 'node:fs';
import { openSeason, recordFromLog } from '@furrowmark/domain';
import { renderPdf } from '@furrowmark/pdf';
import { isRefusal, jsonOf, reportKinds, tablesOf, type ReportContent } from '@furrowmark/reports';
import { attachmentsOf, drawnTextOf, infoOf, run, solid, textOf, withPdf } from './pdf/programs.ts';

// The project's corpus of example records, one of almost every type, taken into a log in the order it stands in.
const corpus = readFileSync(new URL('../libs/domain/src/records/corpus/v1.ndjson', import.meta.url), 'utf8');
const season = openSeason(
  corpus
    .split('\n')
    .filter((line) => line !== '')
    .map((line, seq) => {
      const draft: { occurredAt: string } = JSON.parse(line);
      const operationId = '0197a000-0000-7000-8000-00000000000f';
      const recordedBy = '0197a000-0000-7000-8000-0000000000ff';
      return recordFromLog({ ...draft, operationId, seq, recordedAt: draft.occurredAt, recordedBy });
    }),
);
const firstOf = (things: readonly { readonly id: string }[]): string => things[0]?.id ?? '';
const parameters: Readonly<Record<string, object>> = {
  'batch-record': { batch: firstOf(season.batches()) },
  'lot-trace': { lot: firstOf(season.lots()) },
  'recall-sheet': { lot: firstOf(season.lots()) },
  'harvest-applications': { harvest: firstOf(season.harvests()) },
  'field-history': { field: firstOf(season.fields()) },
  'tank-sheet': { batch: firstOf(season.batches()) },
};
const createdAt = new Date('2026-11-02T15:15:00Z');
const contentOf = (kind: string, language: 'en' | 'es'): ReportContent => {
  const log = { size: season.size, root: 'qqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqo=' };
  const content = reportKinds
    .find((each) => each.kind === kind)
    ?.content(season, parameters[kind] ?? {}, { now: createdAt.getTime(), language, log });
  if (content === undefined || isRefusal(content)) throw new Error(`${kind}: ${JSON.stringify(content)}`);
  return content;
};

describe.each(
  reportKinds.map(({ kind }, index) => ({ kind, language: index % 2 === 0 ? ('en' as const) : ('es' as const) })),
)('the PDF of $kind in $language', ({ kind, language }) => {
  const content = contentOf(kind, language);
  const rendered = renderPdf(content, { paper: language === 'en' ? 'letter' : 'a4', createdAt });

  it('is sound, tagged, and in its language', async () => {
    const bytes = await rendered;
    expect(withPdf(bytes, (path) => run('qpdf', '--check', path))).toContain('No syntax or stream encoding errors');
    expect(infoOf(bytes)).toMatch(/^Tagged: +yes$/m);
    expect(textOf(bytes)).toContain(language === 'en' ? 'page 1 of' : 'página 1 de');
  });

  it('prints every cell of every table', async () => {
    const drawn = solid(drawnTextOf(await rendered));
    for (const { rows } of tablesOf(content)) {
      for (const { text } of rows.flat()) expect(drawn).toContain(solid(text));
    }
    expect(drawn).not.toContain('[U+');
  });

  it('carries its data', async () => {
    const attached = attachmentsOf(await rendered);
    expect(JSON.parse(attached.get(`${kind}.json`) ?? '')).toEqual(jsonOf(content));
    expect(attached.size).toBe(tablesOf(content).length + 1);
  });
});

import { readFileSync } from 'node:fs';
import { openSeason, recordFromLog } from '@furrowmark/domain';
import { isRefusal, reportKinds, type ReportContent } from '@furrowmark/reports';

// The project's corpus of example records, one of almost every type, taken into a log in the order it stands in.
const corpus = readFileSync(new URL('../../libs/domain/src/records/corpus/v1.ndjson', import.meta.url), 'utf8');
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
export const createdAt = new Date('2026-11-02T15:15:00Z');
/** What a report of the corpus says. */
export const contentOf = (kind: string, language: 'en' | 'es'): ReportContent => {
  const log = { size: season.size, root: 'qqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqo=' };
  const content = reportKinds
    .find((each) => each.kind === kind)
    ?.content(season, parameters[kind] ?? {}, { now: createdAt.getTime(), language, log });
  if (content === undefined || isRefusal(content)) throw new Error(`${kind}: ${JSON.stringify(content)}`);
  return content;
};

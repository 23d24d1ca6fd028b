import { drawSubjectId } from '@furrowmark/domain';
import { findingId } from '@furrowmark/rules';
import { describe, expect, it } from '@jest/globals';
import type { ReportContent, VerdictLine } from '../content.ts';
import { brew, farm, gal, id, lb, loads, made, operation, seasonOf, tableIn, type Line } from '../testing/season.ts';
import { batchRecord } from './batch-record/batch-record.ts';
import { findingsReport } from './findings.ts';

const recalled: Line = ['lot.recalled', '05-01 08:00', { lotId: id('WC-1'), reason: 'notice of 1 May' }];
/** Brewed with molasses and worm compost: tea that counts as untreated, whatever becomes of it. */
const fed = (code: string, day: string): Line[] => [
  ['batch.opened', `${day} 08:00`, { batchId: id(code), code, kind: 'aeratedTea', vesselId: id('tote') }],
  ['batch.filled', `${day} 08:30`, { batchId: id(code), sourceId: id('well'), volume: gal(300) }],
  ['batch.airStarted', `${day} 08:35`, { batchId: id(code) }],
  ['batch.ingredientAdded', `${day} 09:00`, { batchId: id(code), lotId: id('WC-1'), quantity: lb(10) }],
  ['batch.ingredientAdded', `${day} 09:05`, { batchId: id(code), lotId: id('MO-1'), quantity: gal(0.5) }],
];
const linesUnder = ({ blocks }: ReportContent, heading: string): VerdictLine[] => {
  const from = blocks.findIndex((block) => block.kind === 'heading' && block.text === heading);
  const rest = from < 0 ? [] : blocks.slice(from + 1);
  const end = rest.findIndex(({ kind }) => kind === 'heading');
  return (end < 0 ? rest : rest.slice(0, end)).flatMap((block) => (block.kind === 'verdicts' ? block.items : []));
};
const linesOf = ({ blocks }: ReportContent): VerdictLine[] =>
  blocks.flatMap((block) => (block.kind === 'verdicts' ? block.items : []));

describe('a recalled lot that was used', () => {
  const season = seasonOf(...farm, ...brew, ...loads, recalled);
  it.each([
    ['the findings', made(findingsReport, season, {})],
    ['the batch record', made(batchRecord, season, { batch: id('T-1') })],
  ])('stands before everything else in %s, not among own practice', (_, content) => {
    const first = content.blocks.find((block) => block.kind === 'verdicts');
    expect(first?.items[0]?.word).toContain('recalled');
    expect(linesUnder(content, 'Critical: to be seen to first').map(({ about }) => about)).toEqual(['lot WC-1']);
    expect(linesUnder(content, 'Annex: own practice').some(({ word }) => word.includes('recalled'))).toBe(false);
  });
});

describe('cautions among findings', () => {
  const content = made(findingsReport, seasonOf(...farm, ...brew, ...fed('T-2', '04-24'), ...fed('T-3', '04-27')), {});
  const untreated = linesOf(content).filter(({ message }) => message.startsWith('Counts as untreated'));

  it('are counted apart: what is inside the limit is no open finding', () => {
    const { rows, total } = tableIn(content, 'counts');
    const [open, cautions] = [1, 4].map((column) => Number(total?.[column]?.value));
    expect(cautions).toBeGreaterThanOrEqual(2);
    const told = linesOf(content);
    expect(open).toBe(told.filter(({ mark, word }) => mark !== 'caution' && word.includes('(open')).length);
    expect(rows.reduce((sum, row) => sum + Number(row[4]?.value), 0)).toBe(cautions);
  });

  it('do not say that no cause was recorded: nobody asked for one', () => {
    const told = linesOf(content);
    expect(told.some(({ mark }) => mark === 'caution')).toBe(true);
    for (const { mark, notes = [] } of told)
      if (mark === 'caution') expect(notes.map(({ term }) => term)).not.toContain('Cause');
  });

  it('that say the same of several batches are one line with all their codes and records', () => {
    expect(untreated.map(({ about }) => about)).toEqual(['batch T-2, T-3']);
    const records = untreated[0]?.notes?.find(({ term }) => term === 'Records')?.value.split(', ');
    // Of each batch its compost and its molasses: the fourth and fifth line of each.
    const first = farm.length + brew.length;
    expect(records).toEqual([first + 3, first + 4, first + 8, first + 9].map(String));
  });
});

describe('what the operation answered', () => {
  it('stands in the batch record, too: cause, action, when and by whom', () => {
    const hold = findingId(operation, 'hold-maximum', 'draw', drawSubjectId(id('A-2'), id('T-1')));
    const answer: Line = [
      'finding.answered',
      '04-23 09:00',
      { findingId: hold, cause: 'pump failed', action: 'spare pump bought', state: 'done' },
      { performedBy: id('Ines') },
    ];
    const lineOf = (...more: readonly Line[]) =>
      linesOf(made(batchRecord, seasonOf(...farm, ...brew, ...loads, ...more), { batch: id('T-1') })).find(
        ({ message }) => message.includes('9 h 12 min'),
      );
    expect(lineOf(answer)?.notes).toEqual([
      { term: 'Cause', value: 'pump failed — 2026-04-23 09:00, Ines Harrow (done)' },
      { term: 'Action', value: 'spare pump bought' },
    ]);
    expect(lineOf()?.notes).toBeUndefined();
  });
});

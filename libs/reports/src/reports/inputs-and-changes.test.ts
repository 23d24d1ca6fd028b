import { describe, expect, it } from '@jest/globals';
import { findingId } from '@furrowmark/rules';
import { drawSubjectId } from '@furrowmark/domain';
import {
  brew,
  farm,
  harvest,
  id,
  lb,
  loads,
  made,
  operation,
  printed,
  seasonOf,
  tableIn,
  type Line,
} from '../testing/season.ts';
import { changes } from './changes.ts';
import { fieldHistory } from './field-history.ts';
import { findingsReport } from './findings.ts';
import { harvestApplications } from './harvest-applications.ts';
import { inputList } from './input-list.ts';
import { recallSheet } from './recall-sheet.ts';
import { reportKind } from '../catalogue.ts';
import { tankCalendar } from './tank-calendar.ts';

const season = (...more: readonly Line[]) => seasonOf(...farm, ...brew, ...loads, ...harvest, ...more);

describe('the input list', () => {
  const missing = (...more: readonly Line[]): string | undefined =>
    printed(tableIn(made(inputList, season(...more), {}), 'inputs'))
      .find(([material]) => material?.startsWith('WC'))
      ?.at(-1);

  it('says what is missing: approval, label, treatment record, receipt', () => {
    expect(missing()).toBe(
      'no approval recorded; no label on file; no treatment record, of animal origin; no receipt for WC-1',
    );
  });

  it('counts an approval on the day of use, not on the day of the report', () => {
    const approved = (from: string, until: string): Line => [
      'material.approved',
      '04-01 09:00',
      { materialId: id('WC'), by: 'certifier', reference: 'letter', from, until },
    ];
    // used on 20 April
    expect(missing(approved('2026-01-01', '2026-04-20'))).not.toContain('approval');
    expect(missing(approved('2026-01-01', '2026-04-19'))).toContain('no approval in force on 2026-04-20');
    expect(
      missing(approved('2026-01-01', '2026-12-31'), [
        'material.withdrawn',
        '04-10 09:00',
        { materialId: id('WC'), by: 'certifier', reference: 'letter 2', from: '2026-04-15' },
      ]),
    ).toContain('no approval in force on 2026-04-20');
  });

  it('lists nothing missing where all is on file', () => {
    const complete = seasonOf(
      ...farm.filter(([type, , data]) => !(type === 'lot.received' && 'lotId' in data && data.lotId === id('WC-1'))),
      [
        'lot.received',
        '04-02 08:00',
        {
          lotId: id('WC-1'),
          code: 'WC-1',
          materialId: id('WC'),
          supplierLot: 'S7',
          quantity: lb(100),
          documentId: id('receipt'),
        },
      ],
      ...brew,
      [
        'material.approved',
        '04-01 09:00',
        { materialId: id('WC'), by: 'certifier', reference: 'letter', from: '2026-01-01' },
      ],
      ['material.documented', '04-01 09:00', { materialId: id('WC'), covers: 'label', from: '2026-01-01' }],
      ['material.documented', '04-01 09:00', { materialId: id('WC'), covers: 'treatment', from: '2026-01-01' }],
    );
    const row = printed(tableIn(made(inputList, complete, {}), 'inputs')).find(([material]) =>
      material?.startsWith('WC'),
    );
    expect(row?.at(-1)).toBe('none');
  });
});

describe('changes', () => {
  const corrected: readonly Line[] = [
    ['inspection.held', '05-01 10:00', { inspectionId: id('inspection'), by: 'inspector', scope: 'crops' }],
    [
      'record.struck',
      '05-03 08:00',
      { recordId: id(`record ${farm.length + 4}`), type: 'batch.oxygenMeasured', reason: 'wrong tank' },
    ],
    [
      'ruleBook.adopted',
      '05-04 08:00',
      {
        effectiveFrom: '2026-05-05T00:00:00-04:00',
        entries: [{ ruleId: 'hold-maximum', parameters: { limitHours: 7 } }],
        reason: 'our plan says seven',
        approvedBy: id('Ines'),
      },
    ],
  ];

  it('since the last inspection: withdrawn records with their reason, and the rule book', () => {
    const content = made(changes, season(...corrected), {});
    const corrections = tableIn(content, 'corrections').rows;
    expect(corrections).toHaveLength(1);
    expect(corrections[0]?.[3]?.text).toContain('struck: wrong tank');
    expect(corrections[0]?.[4]?.struck).toBe(true);
    expect(tableIn(content, 'rule-book').rows).toHaveLength(1);
    expect(tableIn(content, 'added').rows).toHaveLength(0);
  });

  it('say of a corrected time what it was before, and who corrected it when, by which record', () => {
    const off = farm.length + brew.length - 1;
    const amended: Line = [
      'record.amended',
      '05-03 08:00',
      {
        ...{ recordId: id(`record ${off}`), type: 'batch.airStopped', version: 1, reason: 'typed as the evening' },
        ...{ occurredAt: '2026-04-21T09:50:00-04:00', data: { batchId: id('T-1'), cause: 'planned' } },
      },
      { performedBy: id('Ines') },
    ];
    const [row] = tableIn(made(changes, season(amended), {}), 'corrections').rows;
    expect(row?.[1]).toEqual({
      text: '2026-04-21 09:50',
      value: '2026-04-21T09:50:00-04:00',
      was: '2026-04-21 10:00',
    });
    // The correction is written after all of the season.
    const number = farm.length + brew.length + loads.length + harvest.length;
    expect(row?.[3]?.text).toMatch(
      new RegExp(`amended: typed as the evening \\(No\\. ${number}, 2026-05-03 08:00, Ines Harrow\\)$`),
    );
  });

  it('have no id where an inspection has no name', () => {
    const [row] = tableIn(made(changes, season(...corrected), { since: '2026-04-01' }), 'certifier').rows;
    expect(row?.[2]?.text).toBe('–');
  });

  it('since a day asked for, by the time of recording', () => {
    const content = made(changes, season(...corrected), { since: '2026-05-04' });
    expect(tableIn(content, 'corrections').rows).toHaveLength(0);
    expect(tableIn(content, 'rule-book').rows).toHaveLength(1);
  });
});

describe('the tank calendar', () => {
  it('counts the days of each batch and the idle days between', () => {
    const content = made(tankCalendar, season(), { from: '2026-04-01', to: '2026-04-30' });
    const { rows, total } = tableIn(content, 'tank-Tote 1');
    expect(rows.map((row) => row.map(({ text }) => text))).toEqual([
      ['2026-04-01', '2026-04-19', 'idle', '', '19'],
      ['2026-04-20', '2026-04-21', 'T-1', '2', ''],
      ['2026-04-22', '2026-04-30', 'idle', '', '9'],
    ]);
    expect(total?.map(({ text }) => text)).toEqual(['Total', '', '', '2', '28']);
  });
});

describe('a harvest', () => {
  it('has every application on its ground since planting, and none that names another planting', () => {
    const other: readonly Line[] = [
      [
        'planting.started',
        '04-06 08:00',
        { plantingId: id('beans'), fieldId: id('North'), crop: 'beans', ediblePart: 'fruitAbove' },
      ],
      [
        'application.made',
        '06-01 12:00',
        {
          applicationId: id('A-9'),
          code: 'A-9',
          targets: [{ fieldId: id('North'), plantingId: id('beans') }],
          draws: [],
          startedAt: '2026-06-01T11:00:00-04:00',
          finishedAt: '2026-06-01T12:00:00-04:00',
          method: 'foliar',
          applicator: id('Ines'),
        },
      ],
    ];
    const rows = printed(tableIn(made(harvestApplications, season(...other), { harvest: id('H-1') }), 'applications'));
    expect(rows.map((row) => row[1])).toEqual(['A-1', 'A-2']);
  });
});

describe('a field', () => {
  it('has its plantings, applications, harvests and everything recorded of its ground', () => {
    const content = made(fieldHistory, season(), { field: id('North') });
    expect(printed(tableIn(content, 'plantings'))).toEqual([['carrots', 'North', '2026-04-05', 'standing']]);
    expect(tableIn(content, 'applications').rows).toHaveLength(2);
    expect(tableIn(content, 'records').rows.length).toBeGreaterThanOrEqual(5);
  });
});

describe('the recall sheet', () => {
  const recall: Line = ['lot.recalled', '09-01 08:00', { lotId: id('WC-1'), reason: 'notice' }];
  const content = made(recallSheet, season(recall), { lot: id('WC-1') });

  it('says what to stop: stock and tanks that have it', () => {
    expect(printed(tableIn(content, 'stop'))).toEqual([
      ['T-1', 'left in Tote 1 when the batch was closed on 2026-04-21', '1.000'],
      ['WC-1', 'in stock', '90.000'],
    ]);
  });

  it('says whom to tell, with room to write when', () => {
    expect(printed(tableIn(content, 'tell'))).toEqual([
      ['2026-08-27', 'Harvest H-1', 'packing shed', '1,200 lb', 'BOL 118', ''],
    ]);
  });

  it('says which ground and crops it reached', () => {
    expect(printed(tableIn(content, 'ground'))).toEqual([
      ['North', 'carrots', '2026-04-21', 'H-1 (2026-08-26)'],
      ['East', '–', '2026-04-21', 'not yet'],
    ]);
  });
});

describe('findings', () => {
  it('carry cause and action of their answer, and what still waits comes first', () => {
    const first = made(findingsReport, season(), {});
    const lines = first.blocks.flatMap((block) => (block.kind === 'verdicts' ? block.items : []));
    expect(
      lines.some(
        ({ message, notes }) =>
          message.includes('9 h 12 min') && notes?.[0]?.value === 'No cause or action was recorded.',
      ),
    ).toBe(true);
    const counts = tableIn(first, 'counts');
    expect(Number(counts.total?.[1]?.value)).toBe(lines.length);
  });
});

describe('findings answered and resolved', () => {
  const hold = findingId(operation, 'hold-maximum', 'draw', drawSubjectId(id('A-2'), id('T-1')));
  const linesOf = (...more: readonly Line[]) =>
    made(findingsReport, season(...more), {}).blocks.flatMap((block) => (block.kind === 'verdicts' ? block.items : []));
  const heldLong = ({ title, message }: { title: string; message: string }): boolean =>
    title.includes('air went off') && message.includes('9 h 12 min');

  it('an answer stands with its finding: cause, action, when and by whom', () => {
    const line = linesOf([
      'finding.answered',
      '04-23 09:00',
      { findingId: hold, cause: 'pump failed', action: 'spare pump bought', state: 'done' },
      { performedBy: id('Ines') },
    ]).find(heldLong);
    expect(line?.word).toContain('answered');
    expect(line?.notes?.slice(0, 2)).toEqual([
      { term: 'Cause', value: 'pump failed — 2026-04-23 09:00, Ines Harrow (done)' },
      { term: 'Action', value: 'spare pump bought' },
    ]);
  });

  it('a finding that a correction resolved (applied within 1 h 48 min, no check needed) says by which record', () => {
    const application = farm.length + brew.length + 3;
    const [, , written] = loads[3] ?? [];
    const correction: Line = [
      'record.amended',
      '04-22 09:00',
      {
        ...{ recordId: id(`record ${application}`), type: 'application.made', version: 1, reason: 'wrong hours' },
        occurredAt: '2026-04-21T11:48:00-04:00',
        data: { ...written, startedAt: '2026-04-21T11:00:00-04:00', finishedAt: '2026-04-21T11:48:00-04:00' },
      },
    ];
    const line = linesOf(correction).find(heldLong);
    expect(line?.word).toContain('resolved');
    expect(line?.notes?.find(({ term }) => term === 'Resolved')?.value).toMatch(/^by the correction in record \d+:/);
  });

  it('are those of the period: nothing of April is in the report of June', () => {
    const june = made(findingsReport, season(), { from: '2026-06-01', to: '2026-06-30' });
    const lines = june.blocks.flatMap((block) => (block.kind === 'verdicts' ? block.items : []));
    expect(lines.some(({ about }) => about.includes('T-1'))).toBe(false);
  });
});

describe('the logs', () => {
  it('the training log names who was trained in what', () => {
    const training = reportKind('training');
    if (training === undefined) throw new Error('no training log');
    const content = made(
      training,
      season([
        'person.trained',
        '04-03 09:00',
        { personId: id('Ines'), topic: 'hygiene and tea handling', by: 'farm office' },
      ]),
      {},
    );
    expect(printed(tableIn(content, 'training'))[0]?.slice(2, 5)).toEqual([
      'Ines Harrow',
      'training',
      'topic hygiene and tea handling, by farm office',
    ]);
  });
});

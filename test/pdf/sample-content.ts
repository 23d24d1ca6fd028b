import type { Block, Cell, ReportContent } from '@furrowmark/reports';

const at = (text: string): number => Date.parse(text);
const hour = 3_600_000;

/** An invented report with one block of every kind, for the tests of this room. */
export const everyBlock: readonly Block[] = [
  { kind: 'heading', level: 1, text: 'Batch T-14', anchor: 'batch' },
  {
    kind: 'paragraph',
    text: 'Tea brewed in Tote 2 from municipal water, aerated until it was drawn. µ ñ ž – … ≥ ≤ ° → ½',
  },
  { kind: 'note', tone: 'caution', text: 'Chlorine fumes: open the test reagents outdoors and wear gloves.' },
  { kind: 'note', tone: 'info', text: 'The tool reports; it does not certify.' },
  {
    kind: 'facts',
    items: [
      { term: 'Vessel', value: 'Tote 2' },
      { term: 'Filled', value: '290 gal (1,097.8 L)' },
      { term: 'Compost', value: '7 lb', was: '0.5 green bucket, level' },
      { term: 'Brew started', value: '2026-04-20 09:30' },
      { term: 'Hold, longest', value: '9.2 h' },
    ],
  },
  { kind: 'heading', level: 2, text: 'Oxygen' },
  {
    kind: 'oxygenChart',
    title: 'Oxygen through the brew',
    description: 'Seven readings between 6.4 and 8.4 mg/L; the lowest was 6.4 mg/L at 02:00.',
    from: at('2026-04-20T08:00-04:00'),
    to: at('2026-04-21T18:00-04:00'),
    timeZone: 'America/New_York',
    limitMgPerL: 6,
    readings: [8.4, 7.9, 7.4, 7.1, 6.4, 6.8, 7.0].map((mgPerL, index) => ({
      at: at('2026-04-20T09:30-04:00') + index * 4 * hour,
      mgPerL,
      saturationMgPerL: 9.2 + index * 0.05,
    })),
    bands: [
      { from: at('2026-04-20T08:10-04:00'), to: at('2026-04-20T22:00-04:00'), label: 'air', kind: 'air' },
      { from: at('2026-04-20T22:00-04:00'), to: at('2026-04-20T22:40-04:00'), label: 'no air', kind: 'noAir' },
      { from: at('2026-04-20T22:40-04:00'), to: at('2026-04-21T10:00-04:00'), label: 'air', kind: 'air' },
      { from: at('2026-04-20T09:30-04:00'), to: at('2026-04-21T10:00-04:00'), label: 'brew 24.5 h', kind: 'brew' },
      { from: at('2026-04-21T10:00-04:00'), to: at('2026-04-21T17:40-04:00'), label: 'hold 7.7 h', kind: 'hold' },
    ],
    marks: [
      { at: at('2026-04-20T09:30-04:00'), label: 'compost in' },
      { at: at('2026-04-21T10:00-04:00'), label: 'air off' },
      { at: at('2026-04-21T16:30-04:00'), label: 'North 4 starts' },
    ],
  },
  {
    kind: 'batchRibbon',
    title: 'The batch on true time',
    description: 'Filled at 08:00, aerated from 08:10, brewed 24.5 h, held 7.7 h, applied to North 4 until 17:40.',
    from: at('2026-04-20T07:30-04:00'),
    to: at('2026-04-21T18:00-04:00'),
    timeZone: 'America/New_York',
    lanes: [
      {
        label: 'Water',
        spans: [
          { from: at('2026-04-20T07:40-04:00'), to: at('2026-04-20T08:05-04:00'), label: 'fill 290 gal', kind: 'fill' },
        ],
        marks: [{ at: at('2026-04-20T08:30-04:00'), label: 'chlorine below 0.5 mg/L' }],
      },
      {
        label: 'Air',
        spans: [
          { from: at('2026-04-20T08:10-04:00'), to: at('2026-04-20T22:00-04:00'), label: '', kind: 'air' },
          { from: at('2026-04-20T22:00-04:00'), to: at('2026-04-20T22:40-04:00'), label: 'off 40 min', kind: 'noAir' },
          { from: at('2026-04-20T22:40-04:00'), to: at('2026-04-21T10:00-04:00'), label: '', kind: 'air' },
        ],
        marks: [],
      },
      {
        label: 'Brew, hold',
        spans: [
          { from: at('2026-04-20T09:30-04:00'), to: at('2026-04-21T10:00-04:00'), label: 'brew 24.5 h', kind: 'brew' },
          { from: at('2026-04-21T10:00-04:00'), to: at('2026-04-21T17:40-04:00'), label: 'hold 7.7 h', kind: 'hold' },
        ],
        marks: [{ at: at('2026-04-21T18:00-04:00'), label: 'hold limit 18:00' }],
      },
      {
        label: 'Applied',
        spans: [
          { from: at('2026-04-21T16:30-04:00'), to: at('2026-04-21T17:40-04:00'), label: 'North 4', kind: 'apply' },
        ],
        marks: [],
      },
    ],
  },
  { kind: 'heading', level: 2, text: 'Where the lot went' },
  {
    kind: 'traceFlow',
    title: 'Lot FH-26-03',
    description: 'Lot FH-26-03 went into T-14 and T-15, and on to three fields.',
    columns: [
      { label: 'supplier lot', nodes: [{ id: 'l', label: 'FH-26-03', detail: '55 gal received' }] },
      { label: 'batch', nodes: ['T-14', 'T-15'].map((label) => ({ id: label, label, detail: 'Tote 2' })) },
      { label: 'field', nodes: ['North 4', 'East block', 'Tunnel 2'].map((label) => ({ id: label, label })) },
      { label: 'harvest', nodes: [{ id: 'h', label: 'C-0714', detail: 'carrots, 2,400 lb' }] },
    ],
    edges: [
      { from: 'l', to: 'T-14', label: '0.5 gal', weight: 0.5 },
      { from: 'l', to: 'T-15', label: '1.5 gal', weight: 1.5 },
      { from: 'T-14', to: 'North 4', label: '0.4 gal', weight: 0.4 },
      { from: 'T-15', to: 'North 4', label: '0.2 gal', weight: 0.2 },
      { from: 'T-15', to: 'East block', label: '0.9 gal', weight: 0.9 },
      { from: 'T-15', to: 'Tunnel 2', label: '0.4 gal', weight: 0.4 },
      { from: 'North 4', to: 'h', label: '', weight: 0 },
    ],
  },
  { kind: 'heading', level: 2, text: 'Verdicts' },
  {
    kind: 'verdicts',
    items: (['broken', 'caution', 'unknown', 'due', 'met', 'notApplicable'] as const).map((mark) => ({
      mark,
      word: {
        broken: 'outside your limit',
        caution: 'near the limit',
        unknown: 'cannot tell',
        due: 'due',
        met: 'met',
        notApplicable: 'not applicable',
      }[mark],
      title: 'Time held without air',
      about: 'T-14 · North 4',
      message: 'The tea was without air for 9.2 h before the application ended; your limit is 8 h.',
      citation: 'common practice, no source',
      figures: 'holdHours 9.2 h (advised 6, limit 8)',
    })),
  },
  { kind: 'heading', level: 3, text: 'A table with everything' },
  longTable(6),
  { kind: 'blank', label: 'Reviewed by, date', lines: 1 },
];

/** A table of so many rows with numbers, long words, originals and strikes, and its total. */
export function longTable(rows: number): Extract<Block, { kind: 'table' }> {
  const row = (index: number): readonly Cell[] => [
    { text: `2026-04-${String((index % 28) + 1).padStart(2, '0')} 06:10`, value: '2026-04-20T06:10:00-04:00' },
    { text: `T-${index}`, to: 'batch' },
    index % 5 === 4
      ? { text: 'ein-sehr-langes-Wort-ohne-Lücke-0197a000-0000-7000-8000-000000900036' }
      : { text: index % 3 === 0 ? 'North 4, bed 3 and the two rows along the hedge' : 'East block' },
    index % 4 === 1
      ? { text: (index + 0.5).toFixed(1), value: index + 0.5, was: '70.5' }
      : { text: (index + 0.5).toFixed(1), value: index + 0.5 },
    { text: index % 2 === 0 ? 'met' : 'not met', mark: index % 2 === 0 ? 'met' : 'broken' },
    index % 6 === 3 ? { text: 'typed on the wrong tank', struck: true } : { text: '=SUM(A1:A9)' },
  ];
  const body = Array.from({ length: rows }, (_, index) => row(index));
  const sum = body.reduce((total, [, , , cell]) => total + Number(cell?.value ?? 0), 0);
  return {
    kind: 'table',
    name: 'everything',
    caption: 'Applications by field',
    columns: [
      { key: 'at', label: 'Time', type: 'instant' },
      { key: 'batch', label: 'Batch', type: 'text' },
      { key: 'where', label: 'Where', type: 'text' },
      { key: 'volume', label: 'Volume, gal', type: 'number' },
      { key: 'verdict', label: 'Verdict', type: 'verdict' },
      { key: 'remark', label: 'Remark', type: 'text' },
    ],
    rows: body,
    total: [
      { text: 'Total' },
      { text: '' },
      { text: '' },
      { text: sum.toFixed(1), value: sum },
      { text: '' },
      { text: '' },
    ],
  };
}

/** Wraps blocks into an invented operation's report. */
export function sampleReport(blocks: readonly Block[], changes: Partial<ReportContent> = {}): ReportContent {
  return {
    kind: 'batch-record',
    title: 'Batch record T-14',
    subtitle: 'House tea, Tote 2',
    language: 'en',
    operation: {
      name: 'Quillfen Growers',
      address: '12 Quillfen Lane',
      certificate: 'Example Certifying Agent, EX-0042-B',
      timeZone: 'America/New_York',
    },
    period: { from: '2026-04-01', to: '2026-10-31' },
    preparedAt: '2026-11-02 10:15 EST',
    log: {
      size: 140,
      root: 'qqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqo=',
      checkpoint:
        'furrowmark/0197a000-0000-7000-8000-000000000001\n140\nqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqo=\n\n— furrowmark/0197a000-0000-7000-8000-000000000001 AAAAAKqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqo=\n',
    },
    blocks,
    ...changes,
  };
}

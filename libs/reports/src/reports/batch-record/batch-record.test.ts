import { describe, expect, it } from '@jest/globals';
import { judgeBatch } from '@furrowmark/rules';
import type { BatchRibbon, Block, OxygenChart, VerdictLine } from '../../content.ts';
import {
  at,
  brew,
  farm,
  gal,
  given,
  id,
  lb,
  loads,
  made,
  printed,
  seasonOf,
  tableIn,
  type Line,
} from '../../testing/season.ts';
import { batchRecord } from './batch-record.ts';

const record = (...more: readonly Line[]) =>
  made(batchRecord, seasonOf(...farm, ...brew, ...loads, ...more), { batch: id('T-1') });
const content = record();
const fact = (term: string): string | undefined =>
  content.blocks.flatMap((block) => (block.kind === 'facts' ? block.items : [])).find((item) => item.term === term)
    ?.value;
const ofKind = <K extends Block['kind']>(kind: K): Extract<Block, { kind: K }>[] =>
  content.blocks.filter((block): block is Extract<Block, { kind: K }> => block.kind === kind);

describe('a batch record', () => {
  it('says what was brewed where, from what water, and for how long', () => {
    expect(fact('Vessel')).toBe('Tote 1');
    expect(fact('Water')).toBe('Barn well, no disinfectant');
    expect(fact('Filled')).toBe('300 gal');
    // air on 08:35, compost in at 09:00
    expect(fact('Air before food')).toBe('25 min');
    // 09:00 to the air off at 10:00 a day later; 10:00 to the end of the second application at 19:12
    expect(fact('Brew, shortest')).toBe('25 h');
    expect(fact('Hold, longest')).toBe('9.2 h');
  });

  it('gives each draw its own brew and hold, with the shape of its verdict', () => {
    const rows = tableIn(content, 'draws').rows;
    expect(rows.map((row) => row[5]?.text)).toEqual(['1.5 h', '9.2 h']);
    // built-in limit of 8 h, common practice
    expect(rows.map((row) => row[5]?.mark)).toEqual(['met', 'broken']);
  });

  it('accounts for the volume: 300 filled less 270 drawn less 28 remaining leaves 2 gal', () => {
    const { rows, total } = tableIn(content, 'volume');
    expect(rows.map((row) => row[1]?.text)).toEqual(['300.0', '0.0', '−270.0', '0.0', '0.0', '0.0', '−28.0']);
    expect(total?.[1]).toEqual({ text: '2.0', value: 2 });
  });

  it('shows oxygen against its limit with what water can hold', () => {
    const [chart]: OxygenChart[] = ofKind('oxygenChart');
    expect(chart?.limitMgPerL).toBe(6);
    expect(chart?.readings.map(({ mgPerL }) => mgPerL)).toEqual([7.4, 6.8]);
    // 64 °F at 210 m: about 9.2 mg/L (Benson & Krause, as published by USGS, at 750 mmHg and 17.8 °C: 9.3)
    expect(chart?.readings[0]?.saturationMgPerL).toBeGreaterThan(9.0);
    expect(chart?.readings[0]?.saturationMgPerL).toBeLessThan(9.5);
  });

  it('draws the batch on true time, and marks where the hold limit was passed', () => {
    const [ribbon]: BatchRibbon[] = ofKind('batchRibbon');
    const lane = ribbon?.lanes.find(({ label }) => label === 'Brew, hold');
    expect(lane?.spans.find(({ kind }) => kind === 'brew')).toMatchObject({
      from: Date.parse(at('04-20 09:00')),
      to: Date.parse(at('04-21 10:00')),
    });
    expect(lane?.marks).toEqual([{ at: Date.parse(at('04-21 18:00')), label: 'limit 8 h' }]);
  });

  it('puts what regulations and the plan require before own practice, and says what practice is', () => {
    const headings = ofKind('heading').map(({ text }) => text);
    const required = headings.indexOf('What regulations, the certifier and the system plan require');
    const annex = headings.indexOf('Annex: own practice');
    expect(required).toBeGreaterThan(-1);
    expect(annex).toBeGreaterThan(required);
    const lines: VerdictLine[] = ofKind('verdicts').flatMap(({ items }) => [...items]);
    expect(lines.find(({ message }) => message.includes('9 h 12 min'))?.word).toBe('outside your limit');
  });

  it('lists the worst verdicts first within each group', () => {
    const order = ['broken', 'unknown', 'caution', 'due', 'met', 'notApplicable'];
    for (const { items } of ofKind('verdicts')) {
      const weights = items.map(({ mark }) => order.indexOf(mark));
      expect(weights).toEqual(weights.toSorted((a, b) => a - b));
    }
  });

  it('says alike of several things in one line, and leaves out none of what holds', () => {
    const settled = content.blocks.flatMap((block) =>
      block.kind === 'table' && block.name === 'settled' ? block.rows : [],
    );
    const lines = settled.map(([verdict, rule, about, says]) => [verdict?.value, rule?.value, about?.text, says?.text]);
    expect(new Set(lines.map((line) => JSON.stringify(line))).size).toBe(lines.length);
    // Both applications have all that a record needs.
    expect(lines.filter(([, rule]) => rule === 'record-complete').map(([, , about]) => about)).toContainEqual(
      expect.stringMatching(/^application .+, .+$/),
    );
    const told = lines.flatMap(([verdict, rule, about]) =>
      String(about)
        .replace(/^\S+ /, '')
        .split(', ')
        .map((code) => `${String(rule)} ${String(verdict)} ${code}`),
    );
    for (const { ruleId, outcome, about } of judgeBatch(seasonOf(...farm, ...brew, ...loads), id('T-1'), given.now))
      if (outcome === 'met' || outcome === 'notApplicable')
        expect(told).toContain(`${ruleId} ${outcome} ${about.code}`);
  });

  it('strikes the original through beside an amendment, and a withdrawn record as a whole', () => {
    const amended = record(
      [
        'record.amended',
        '04-22 08:00',
        {
          recordId: id(`record ${farm.length + 3}`),
          type: 'batch.ingredientAdded',
          version: 1,
          data: { batchId: id('T-1'), lotId: id('WC-1'), quantity: lb(7) },
          reason: 'weighed again',
        },
      ],
      [
        'record.struck',
        '04-22 08:10',
        { recordId: id(`record ${farm.length + 4}`), type: 'batch.oxygenMeasured', reason: 'typed on the wrong tank' },
      ],
    );
    const rows = tableIn(amended, 'timeline').rows;
    const ingredient = rows.find((row) => row[2]?.value === 'batch.ingredientAdded');
    expect(ingredient?.[3]).toEqual({
      text: 'lot WC-1 · worm compost, quantity 7 lb',
      was: 'lot WC-1 · worm compost, quantity 10 lb',
    });
    expect(ingredient?.[2]?.text).toContain('amended: weighed again');
    expect(rows.filter((row) => row[3]?.struck === true)).toHaveLength(1);
    expect(tableIn(amended, 'ingredients').rows[0]?.[3]).toEqual({ text: '7 lb', was: '10 lb' });
    expect(printed(tableIn(amended, 'oxygen'))).toHaveLength(1);
  });

  it('says the range of an uncertain time, not a crisp one', () => {
    const season = seasonOf(
      ...farm,
      ...brew.slice(0, 6),
      [
        'batch.airStopped',
        '04-21 06:10',
        { batchId: id('T-1'), cause: 'powerCut', lastKnownRunningAt: at('04-20 22:00'), foundAt: at('04-21 06:10') },
      ],
      ['batch.drawn', '04-21 07:00', { drawId: id('late'), batchId: id('T-1'), volume: gal(10) }],
    );
    const off = made(batchRecord, season, { batch: id('T-1') })
      .blocks.flatMap((block) => (block.kind === 'facts' ? block.items : []))
      .find(({ term }) => term === 'Air off');
    expect(off?.value).toBe('2026-04-20 22:00 – 2026-04-21 06:10');
  });

  it('draws a power cut of unknown length as long as it may have been, and says both bounds', () => {
    const cut = seasonOf(
      ...farm,
      ...brew.slice(0, 6),
      [
        'batch.airStopped',
        '04-21 06:10',
        { batchId: id('T-1'), cause: 'powerCut', lastKnownRunningAt: at('04-20 22:00'), foundAt: at('04-21 06:10') },
      ],
      ['batch.airStarted', '04-21 06:20', { batchId: id('T-1') }],
      ['batch.drawn', '04-21 09:00', { drawId: id('late'), batchId: id('T-1'), volume: gal(10) }],
    );
    const ribbon = made(batchRecord, cut, { batch: id('T-1') }).blocks.find((block) => block.kind === 'batchRibbon');
    const off = ribbon?.lanes.find(({ label }) => label === 'Air')?.spans.find(({ kind }) => kind === 'noAir');
    // 22:00 to 06:20 at the most, 06:10 to 06:20 at the least
    expect(off).toEqual({
      from: Date.parse(at('04-20 22:00')),
      to: Date.parse(at('04-21 06:20')),
      kind: 'noAir',
      label: 'off 10–500 min',
    });
  });

  it('says in words what a signature means', () => {
    const approved = record([
      'batch.reviewed',
      '04-23 08:00',
      { batchId: id('T-1'), throughSeq: 20, meaning: 'approved', statement: 'Read.' },
    ]);
    expect(printed(tableIn(approved, 'reviews'))[0]?.[2]).toBe('approved');
  });

  it('has lines to sign on', () => {
    expect(ofKind('blank')).toHaveLength(2);
  });

  it('has none once a signature covers all of it, and has them again when a record came after', () => {
    const last = farm.length + brew.length + loads.length;
    const signed: Line = [
      'batch.reviewed',
      '04-23 08:00',
      { batchId: id('T-1'), throughSeq: last - 1, meaning: 'reviewed', statement: 'Read.' },
    ];
    const later: Line = ['batch.checked', '04-21 09:00', { batchId: id('T-1'), note: 'foam' }];
    const blanks = (...more: readonly Line[]) => record(...more).blocks.filter(({ kind }) => kind === 'blank').length;
    expect([blanks(signed), blanks(signed, later)]).toEqual([0, 2]);
  });

  it('draws the brew of each draw beside the oxygen: fed again and drawn again, its brews are not one long one', () => {
    const again: readonly Line[] = [
      ...farm,
      ...brew.slice(0, 6),
      ['batch.drawn', '04-21 12:00', { drawId: id('first'), batchId: id('T-1'), volume: gal(50) }],
      ['batch.filled', '04-22 08:00', { batchId: id('T-1'), sourceId: id('well'), volume: gal(50) }],
      ['batch.ingredientAdded', '04-22 09:00', { batchId: id('T-1'), lotId: id('WC-1'), quantity: lb(2) }],
      ['batch.drawn', '04-23 10:00', { drawId: id('second'), batchId: id('T-1'), volume: gal(50) }],
    ];
    const chart = made(batchRecord, seasonOf(...again), { batch: id('T-1') }).blocks.find(
      (block): block is OxygenChart => block.kind === 'oxygenChart',
    );
    const brewed = chart?.bands.filter(({ kind }) => kind === 'brew').map(({ from, to, label }) => [from, to, label]);
    // Fed at 09:00, drawn 27 h later; fed again on the 22nd at 09:00, drawn 25 h later.
    expect(brewed).toEqual([
      [Date.parse(at('04-20 09:00')), Date.parse(at('04-21 12:00')), 'brew 27 h'],
      [Date.parse(at('04-22 09:00')), Date.parse(at('04-23 10:00')), 'brew 25 h'],
    ]);
  });
});

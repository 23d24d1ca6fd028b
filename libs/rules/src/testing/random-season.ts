import fc from 'fast-check';
import { gal, id, lb, mgPerL, ordinary, type SeasonBuilder } from './season.ts';

const hour = (h: number): string => {
  const at = new Date(Date.UTC(2026, 5, 1) + Math.round(h * 60) * 60_000).toISOString();
  return `${at.slice(0, 10)} ${at.slice(11, 16)}`;
};

const tenths = (value: number): number => Math.round(value * 10) / 10;

type Step = (season: SeasonBuilder, h: number, batch: string) => unknown;

const steps: readonly Step[] = [
  (s, h, b) =>
    s.add('batch.filled', hour(h), { batchId: id(b), sourceId: id(h % 2 > 1 ? 'W1' : 'Town'), volume: gal(80) }),
  (s, h, b) =>
    s.add('batch.airStarted', hour(h), { batchId: id(b) }, { plusMinusMinutes: Math.round(h) % 3 === 0 ? 20 : 0 }),
  (s, h, b) => s.add('batch.airStopped', hour(h), { batchId: id(b), cause: h % 2 > 1 ? 'powerCut' : 'planned' }),
  (s, h, b) =>
    s.add('batch.ingredientAdded', hour(h), { batchId: id(b), lotId: id(h % 3 > 1 ? 'M-1' : 'C-1'), quantity: lb(20) }),
  (s, h, b) =>
    s.add('batch.ingredientAdded', hour(h), { batchId: id(b), lotId: id('never recorded'), quantity: lb(2) }),
  (s, h, b) =>
    s.add('batch.oxygenMeasured', hour(h), {
      batchId: id(b),
      dissolvedOxygen: h % 5 > 4 ? mgPerL(8, { qualifier: '<' }) : mgPerL(tenths(4 + (h % 6))),
      instrumentId: id('DO-1'),
      temperature: { value: tenths(50 + (h % 40)), unit: '[degF]' },
    }),
  (s, h, b) => s.add('batch.checked', hour(h), { batchId: id(b), odour: h % 4 > 3 ? 'sour' : 'earthy' }),
  (s, h, b) =>
    s.add('batch.chlorineMeasured', hour(h), {
      batchId: id(b),
      free: mgPerL(tenths(h % 1)),
      total: mgPerL(tenths((h * 7) % 1)),
      method: 'kit',
    }),
  (s, h, b) =>
    s.add('application.made', hour(h + 3), {
      applicationId: id(`A ${b} ${h}`),
      targets: [{ fieldId: id(h % 2 > 1 ? 'North 4' : 'nowhere') }],
      draws: [{ batchId: id(b), volume: gal(40) }],
      startedAt: `${hour(h).replace(' ', 'T')}:00-05:00`,
      finishedAt: `${hour(h + 3).replace(' ', 'T')}:00-05:00`,
      method: h % 2 > 1 ? 'foliar' : 'soilDrench',
      applicator: id('Ines'),
    }),
  (s, h, b) => s.add('batch.closed', hour(h), { batchId: id(b), remainingVolume: gal(0) }),
  (s, h, b) => s.add('batch.disposed', hour(h), { batchId: id(b), volume: gal(30), reason: 'late', where: 'pasture' }),
  (s, h) => s.tested('W1', hour(h).slice(5, 10), h % 3 > 2 ? 3 : 0),
  (s, h) => s.add('lot.recalled', hour(h), { lotId: id('M-1'), reason: 'notice' }),
  (s, h) =>
    s.adopted(`2026-${hour(h).slice(5)}`, [
      { ruleId: 'hold-maximum', parameters: { limitHours: 4 + (Math.round(h) % 6) } },
    ]),
  (s, h) =>
    s.add('harvest.made', hour(h), {
      harvestId: id(`H ${h}`),
      code: `H ${h}`,
      fieldId: id('North 4'),
      quantity: lb(10),
      soldAs: 'organic',
    }),
  (s, h) => {
    const last = s.records.findLast((record) => record.type === 'batch.oxygenMeasured');
    if (last?.type === 'batch.oxygenMeasured')
      s.amended(last.id, 'batch.oxygenMeasured', hour(h), { ...last.data, dissolvedOxygen: mgPerL(7) });
  },
  (s, h) => {
    const last = s.records.findLast((record) => record.type === 'application.made');
    if (last !== undefined) s.struck(last.id, 'application.made', hour(h));
  },
];

/** Seasons of two batches in which anything may happen in any order, as it does when people forget to write. */
export const randomSeason: fc.Arbitrary<SeasonBuilder> = fc
  .array(
    fc.record({
      step: fc.nat(steps.length - 1),
      // Minutes of the first ten days of June.
      minute: fc.nat(240 * 60),
      batch: fc.constantFrom('T-1', 'T-2'),
    }),
    { minLength: 1, maxLength: 40 },
  )
  .map((events) => {
    const season = ordinary().source('Town', { kind: 'municipal', disinfectant: 'chlorine' });
    season.batch('T-1', '06-01 00:00');
    season.batch('T-2', '06-01 00:00');
    for (const { step, minute, batch } of events) steps[step]?.(season, Math.round((minute / 60) * 100) / 100, batch);
    return season;
  });

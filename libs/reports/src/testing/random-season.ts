import fc from 'fast-check';
import type { OpenSeason } from '@furrowmark/domain';
import { acres, at, farm, gal, id, lb, seasonOf, type Line } from './season.ts';

const two = (n: number): string => String(n).padStart(2, '0');
/** The half hours from 20 April on. */
const moment = (half: number): string =>
  `04-${two(20 + Math.floor(half / 48))} ${two(Math.floor((half % 48) / 2))}:${half % 2 === 0 ? '00' : '30'}`;

interface Pick {
  readonly kind: number;
  readonly half: number;
  readonly a: number;
  readonly b: number;
  readonly amount: number;
}
const pick: fc.Arbitrary<Pick> = fc.record({
  kind: fc.nat(15),
  half: fc.nat(200),
  a: fc.nat(2),
  b: fc.nat(2),
  amount: fc.integer({ min: 1, max: 400 }).map((n) => n / 4),
});

const batch = (n: number): string => id(`B${n}`);
const draw = (n: number): string => id(`D${n}`);
const field = (n: number): string => id(n === 0 ? 'North' : 'East');
const bucket = (value: number) => ({ value, unit: '{measure}', measureId: id('bucket') });

/** One step of a season: records that need not fit together, as phones deliver them. */
function lineOf({ kind, half, a, b, amount }: Pick, index: number): Line {
  const when = moment(half);
  const lotId = id(['WC-1', 'MO-1', 'own'][b] ?? '');
  switch (kind) {
    case 0:
      return ['batch.opened', when, { batchId: batch(a), code: `T-${a}`, kind: 'aeratedTea', vesselId: id('tote') }];
    case 1:
    case 2:
      return ['batch.filled', when, { batchId: batch(a), sourceId: id('well'), volume: gal(amount) }];
    case 3:
    case 4:
      return [
        'batch.ingredientAdded',
        when,
        { batchId: batch(a), lotId, quantity: b === 0 ? lb(amount) : bucket(amount) },
      ];
    case 5:
      return ['batch.drawn', when, { drawId: draw(b), batchId: batch(a), volume: gal(amount) }];
    case 6: {
      const fate = ['dumped', 'putBack', 'carriedOver'][a] ?? 'dumped';
      const into = a === 2 ? { intoBatchId: batch(b) } : {};
      return ['draw.ended', when, { drawId: draw(a), volume: gal(1), fate, ...into }];
    }
    case 7:
    case 8: {
      const targets = a === 2 ? [{ lotId }] : [{ fieldId: field(a) }, { fieldId: field(b), area: acres(2) }];
      return [
        'application.made',
        when,
        {
          applicationId: id(`A${index}`),
          targets,
          draws: [{ drawId: draw(b) }, { batchId: batch(a), volume: gal(amount) }],
          tankMix: [{ lotId, quantity: lb(1) }],
          startedAt: at(when),
          finishedAt: at(when),
          method: a === 2 ? 'compostWetting' : 'soilDrench',
          applicator: id('Ines'),
        },
      ];
    }
    case 9:
      return [
        'harvest.made',
        when,
        { harvestId: id(`H${a}`), code: `H-${a}`, fieldId: field(b), quantity: lb(amount), soldAs: 'organic' },
      ];
    case 10:
      return [
        'harvest.shipped',
        when,
        { harvestId: id(`H${a}`), quantity: { value: amount, unit: '{bunch}' }, to: 'Packing shed', reference: '' },
      ];
    case 11:
      return [
        'pile.started',
        when,
        { pileId: id(`P${a}`), code: `P-${a}`, method: 'windrow', inputs: [{ lotId, quantity: lb(amount) }] },
      ];
    case 12:
      return [
        'pile.finished',
        when,
        { pileId: id(`P${a}`), lotId: id('own'), code: 'OC-1', materialId: id('WC'), quantity: lb(amount) },
      ];
    case 13:
      return [
        'tea.supplied',
        when,
        {
          batchId: batch(a),
          volume: gal(1),
          to: { name: 'Neighbour', operationId: id('other') },
          statementGiven: 'yes',
          sold: 'no',
        },
      ];
    case 14:
      return [
        'tea.received',
        when,
        { batchId: batch(a), code: `R-${a}`, volume: gal(amount), from: { name: 'Brewer' } },
      ];
    default:
      return ['lot.disposed', when, { lotId, quantity: lb(amount), reason: 'mouldy' }];
  }
}

const measure: Line = [
  'measure.registered',
  '04-01 08:00',
  { measureId: id('bucket'), name: 'green bucket', equals: lb(14.5), weighedOn: '2026-04-01' },
];

/** The shared farm and up to forty steps in any order; some of them struck or turned to another amount afterwards. */
export const randomSeason: fc.Arbitrary<OpenSeason> = fc
  .tuple(fc.array(pick, { maxLength: 40 }), fc.array(fc.tuple(fc.nat(39), fc.boolean()), { maxLength: 4 }))
  .map(([picks, corrections]) => {
    const lines = [...farm, measure, ...picks.map(lineOf)];
    const first = farm.length + 1;
    const corrected = corrections.flatMap(([place, strike]): Line[] => {
      const line = lines[first + place];
      if (line === undefined) return [];
      const [type, , data] = line;
      const named = { recordId: id(`record ${first + place}`), type, version: 1, reason: 'wrong' };
      if (strike) return [['record.struck', '05-01 08:00', { recordId: named.recordId, type, reason: 'wrong tank' }]];
      return [['record.amended', '05-01 08:00', { ...named, data }]];
    });
    return seasonOf(...lines, ...corrected);
  });

import { gal, grams } from './amounts.ts';
import { answer } from './answer.ts';
import { brew } from './brew.ts';
import type { Farm } from './farm.ts';
import { harvest } from './harvest.ts';

/** A recall, a lot that was used beyond what was received, a brew that turned sour and never left the yard. */
export function july(farm: Farm): void {
  const { yard, recipes, fields, diary, people, stores } = farm;
  const inesDid = { performedBy: people.ines };

  // Chloramine and a spoon of vitamin C; nobody measured what was left.
  const t19 = brew(farm, {
    ...{ code: 'T-19', in: yard.tote2, of: recipes.plain, day: '07-02', gallons: 280, water: yard.depot },
    loads: [{ gallons: 270, from: '07-03 06:30', to: '07-03 08:10', on: [fields.south1], method: 'foliar' }],
  });
  const vitaminC = { batchId: t19.batchId, lotId: stores.lots.vitaminC1, quantity: grams(12) };
  diary.write('batch.neutralizerAdded', '07-02 05:52', vitaminC, inesDid);

  brew(farm, {
    ...{ code: 'T-20', in: yard.tote1, of: recipes.house, day: '07-07', gallons: 280, water: yard.town },
    loads: [{ gallons: 268, from: '07-08 06:40', to: '07-08 08:10', on: [{ ground: fields.corner, acres: 2.5 }] }],
  });
  answer(farm, '07-21 09:30', {
    ...{ rule: 'lot-balance', about: ['lot', stores.lots.humic1] },
    cause: 'A second jug bought in May was poured into the first and never booked in.',
    action: 'The receipt was asked for; jugs are no longer poured together.',
    state: 'open',
  });

  const notice = {
    lotId: stores.lots.fish1,
    reason: "supplier's notice of 12 July: drums filled from an untreated tank",
  };
  diary.write('lot.recalled', '07-12 14:05', notice, { by: 'manager' });
  const rest = { lotId: stores.lots.fish1, quantity: gal(13.8), reason: 'recalled, sent back' };
  diary.write('lot.disposed', '07-13 10:00', rest);

  const t21 = brew(farm, {
    ...{ code: 'T-21', in: yard.cone, of: recipes.plain, day: '07-14', gallons: 300, water: yard.well },
    ...{ loads: [], left: 2, airOffAt: '07-15 06:45' },
    oxygen: [
      ['07-14 12:15', 7.0, 76],
      ['07-14 19:15', 6.3, 79],
      ['07-15 06:20', 6.1, 78],
    ],
  });
  const sour = { batchId: t21.batchId, airRunning: 'yes', surface: 'still', odour: 'sour' } as const;
  diary.write('batch.checked', '07-15 06:30', sour, inesDid);
  const dumped = {
    batchId: t21.batchId,
    volume: gal(298),
    reason: 'smelled sour',
    where: 'grass strip, away from the creek',
  };
  diary.write('batch.disposed', '07-15 07:00', dumped, inesDid);

  const kaolin = {
    equipmentId: yard.sprayer,
    what: 'kaolin clay on tomatoes',
    where: 'South 1',
    prohibited: 'no',
  } as const;
  diary.write('equipment.used', '07-19 10:30', kaolin, { performedBy: people.tobin });
  // The start was remembered the next morning, give or take half an hour; the rig had not been rinsed since the clay.
  brew(farm, {
    ...{ code: 'T-22', in: yard.tote2, of: recipes.plain, day: '07-20', gallons: 140, water: yard.well },
    reviewedOn: '07-24',
    loads: [
      {
        ...{ gallons: 130, from: '07-21 06:40', to: '07-21 08:10', method: 'foliar', edibleParts: 'present' },
        on: [fields.bed2, fields.bed4, fields.tunnel],
        written: { entered: '07-22 09:20', origin: 'fromMemory', plusMinusMinutes: 30 },
      },
    ],
  });

  const kelp2 = { lotId: stores.lots.kelp2 };
  diary.write('lot.held', '07-20 10:30', { ...kelp2, reason: 'bag torn in transport' }, { by: 'manager' });
  diary.write('lot.released', '07-22 10:30', { ...kelp2, reason: 'dry inside; supplier confirmed' }, { by: 'manager' });
  brew(farm, {
    ...{ code: 'T-23', in: yard.tote1, of: recipes.house, day: '07-27', gallons: 280, water: yard.town },
    insteadOf: { [stores.lots.kelp1]: kelp2, [stores.lots.humic1]: { lotId: stores.lots.humic2 } },
    loads: [{ gallons: 270, from: '07-28 06:40', to: '07-28 08:20', on: [{ ground: fields.orchard, acres: 4 }] }],
  });

  harvest(farm, 'H-0803', '08-03 10:40', fields.bed2, 140, [{ to: 'packing shed', pounds: 140, reference: 'BOL 117' }]);
}

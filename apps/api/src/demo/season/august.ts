import { gal, lb } from './amounts.ts';
import { answer } from './answer.ts';
import { brew } from './brew.ts';
import type { Farm } from './farm.ts';
import { harvest } from './harvest.ts';
import { publish } from './recipes.ts';

/** Own compost in the tank, tea across the gate, the main harvests, and an inspection. */
export function august(farm: Farm, ownCompost: { readonly lotId: string }): void {
  const { yard, recipes, fields, diary, stores } = farm;
  const ownTea = publish(diary, 'Own compost tea', '07-30 11:00', 300, [
    { materialId: stores.materials.own, lotId: ownCompost.lotId, amount: lb(12) },
    { materialId: stores.materials.basalt, lotId: stores.lots.basalt1, amount: lb(3) },
  ]);

  brew(farm, {
    ...{ code: 'T-24', in: yard.cone, of: recipes.plain, day: '08-04', gallons: 400, water: yard.well },
    loads: [{ gallons: 390, from: '08-05 06:30', to: '08-05 08:10', on: [fields.south1], method: 'foliar' }],
  });

  const t25 = brew(farm, {
    ...{ code: 'T-25', in: yard.tote2, of: ownTea, day: '08-11', gallons: 280, water: yard.town, left: 5 },
    loads: [{ gallons: 212, from: '08-12 06:40', to: '08-12 08:20', on: [{ ground: fields.orchard, acres: 3.5 }] }],
  });
  diary.write('tea.supplied', '08-12 06:45', {
    ...{ batchId: t25.batchId, volume: gal(60), to: { name: 'neighbouring orchard' } },
    ...{ statementGiven: 'yes', sold: 'no' },
  });

  // The last brew of the season: nobody has signed its record yet.
  brew(farm, {
    ...{
      code: 'T-26',
      in: yard.tote1,
      of: ownTea,
      day: '08-24',
      gallons: 280,
      water: yard.well,
      reviewedOn: null,
    },
    loads: [{ gallons: 270, from: '08-25 06:40', to: '08-25 08:20', on: [{ ground: fields.orchard, acres: 4 }] }],
  });

  const text = 'Show how the second jug of humic acid was received.';
  const asked = { reference: 'R-5', kind: 'request' as const, text, dueOn: diary.date('08-31') };
  const request = diary.write('certifier.wrote', '08-14 10:00', asked, { by: 'manager' });
  const how = "in writing, with the supplier's invoice";
  diary.write('certifier.notified', '08-20 16:00', { about: [request], how }, { by: 'manager' });

  const market = 'Saturday market';
  harvest(farm, 'H-0820', '08-20 11:30', fields.south1, 5_200, [
    { to: 'packing shed', pounds: 4_400, reference: 'BOL 131' },
    { to: market, pounds: 800, reference: 'M-0822' },
  ]);
  const carrots = harvest(farm, 'H-0825', '08-25 12:00', fields.north1, 9_800, [
    { to: 'packing shed', pounds: 9_800, reference: 'BOL 134' },
  ]);
  harvest(farm, 'H-0826', '08-26 10:00', fields.creek, 4_100, [{ to: market, pounds: 4_100, reference: 'M-0829' }]);
  harvest(farm, 'H-0827', '08-27 17:30', fields.north2, 7_600, [
    { to: 'packing shed', pounds: 7_600, reference: 'BOL 137' },
  ]);
  const { plantingId } = fields.bed3;
  if (plantingId !== undefined) diary.write('planting.ended', '08-28 12:00', { plantingId, reason: 'cleared' });

  diary.write('lot.counted', '08-27 09:00', { lotId: stores.lots.worm2, quantity: lb(180) }, { by: 'reviewer' });
  const byOffice = { by: 'manager' } as const;
  const exercises = [{ kind: 'trace back', about: carrots, minutes: 3 }];
  diary.write(
    'inspection.held',
    '08-28 15:00',
    { inspectionId: diary.newId(), by: 'inspector of the certifier', scope: 'crops', exercises },
    byOffice,
  );

  answer(farm, '08-29 14:30', {
    ...{ rule: 'lot-balance', about: ['lot', stores.lots.humic1] },
    cause: 'A second jug bought in May was poured into the first and never booked in.',
    action: "The supplier's invoice was found; the office books jugs in at the gate now.",
  });
}

import { brew } from './brew.ts';
import type { Farm } from './farm.ts';
import { laboratory } from './laboratory.ts';

/** Five brews before planting; two of them go to the laboratory. */
export function april(farm: Farm) {
  const { yard, recipes, fields, diary } = farm;

  const t01 = brew(farm, {
    ...{ code: 'T-01', in: yard.tote1, of: recipes.house, day: '04-13', gallons: 280, water: yard.town },
    loads: [
      { gallons: 140, from: '04-14 07:20', to: '04-14 08:35', on: [{ ground: fields.north1, acres: 3.1 }] },
      { gallons: 136, from: '04-14 08:50', to: '04-14 10:10', on: [{ ground: fields.north1, acres: 3.1 }] },
    ],
  });
  laboratory(farm, t01.batchId, '04-14 07:05', '04-20 14:10', 4, 8);

  const t02 = brew(farm, {
    ...{ code: 'T-02', in: yard.tote2, of: recipes.house, day: '04-15', gallons: 280, water: yard.town },
    loads: [{ gallons: 270, from: '04-16 07:30', to: '04-16 09:10', on: [fields.north2] }],
  });
  laboratory(farm, t02.batchId, '04-16 07:10', '04-22 11:40', 12, 10);

  brew(farm, {
    ...{ code: 'T-03', in: yard.cone, of: recipes.house, day: '04-20', gallons: 420, water: yard.well },
    loads: [
      { gallons: 200, from: '04-21 07:10', to: '04-21 08:30', on: [fields.south1] },
      { gallons: 210, from: '04-21 08:50', to: '04-21 10:20', on: [fields.creek] },
    ],
  });

  brew(farm, {
    ...{ code: 'T-04', in: yard.tote1, of: recipes.plain, day: '04-24', gallons: 250, water: yard.well },
    loads: [{ gallons: 245, from: '04-25 07:00', to: '04-25 08:40', on: [fields.hill], method: 'foliar' }],
  });

  // The rig's pump failed in the yard; the tea stood without air until it was mended. Nobody smelled or measured it.
  const t05 = brew(farm, {
    ...{ code: 'T-05', in: yard.tote2, of: recipes.house, day: '04-28', gallons: 280, water: yard.town },
    airOffAt: '04-29 07:05',
    loads: [
      { gallons: 135, from: '04-29 07:20', to: '04-29 08:30', on: [{ ground: fields.north2, acres: 2.5 }] },
      {
        ...{ gallons: 140, drawnAt: '04-29 14:50', from: '04-29 15:05', to: '04-29 16:17' },
        on: [{ ground: fields.north2, acres: 2.6 }],
      },
    ],
  });

  diary.write(
    'ruleBook.adopted',
    '04-27 16:00',
    {
      effectiveFrom: diary.instant('05-01 00:00'),
      entries: [
        { ruleId: 'hold-maximum', severity: 'major', inSystemPlan: true },
        { ruleId: 'oxygen-checked', parameters: { beforeDrawHours: 3 } },
      ],
      reason: 'The system plan now promises eight hours at most between air off and the end of the application.',
      approvedBy: farm.people.orla,
    },
    { by: 'manager' },
  );
  return { t05 };
}

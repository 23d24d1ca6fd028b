import { gal, mgPerL } from './amounts.ts';
import { answer } from './answer.ts';
import { brew, oxygen } from './brew.ts';
import type { Farm } from './farm.ts';
import { harvest } from './harvest.ts';
import { laboratory } from './laboratory.ts';
import { largeBrew } from './largeBrewer.ts';

/** Waters of three kinds; records that came late, were wrong, or were typed on the wrong tank. */
export function june(farm: Farm): void {
  const { yard, recipes, fields, diary, people, stores } = farm;

  const t12 = brew(farm, {
    ...{ code: 'T-12', in: yard.tote1, of: recipes.plain, day: '06-02', gallons: 280, water: yard.depot },
    loads: [{ gallons: 272, from: '06-03 06:40', to: '06-03 08:20', on: [fields.south1], method: 'foliar' }],
  });
  const afterCarbon = { batchId: t12.batchId, total: mgPerL(0.05), method: 'drop kit', instrumentId: yard.dropKit };
  diary.write('batch.chlorineMeasured', '06-02 06:06', afterCarbon, { performedBy: people.ines });

  // In a hurry: worm compost into tap water that had not seen any air.
  const t13 = brew(farm, {
    ...{ code: 'T-13', in: yard.tote2, of: recipes.house, day: '06-05', gallons: 280, water: yard.town },
    ...{ airOnAt: '06-05 06:25', feedAt: '06-05 05:53', strip: null },
    loads: [{ gallons: 271, from: '06-06 07:10', to: '06-06 08:40', on: [{ ground: fields.corner, acres: 2.5 }] }],
  });
  answer(farm, '06-11 15:00', {
    ...{ rule: 'chlorine-dissipated', about: ['batch', t13.batchId] },
    cause: 'A helper fed the tote before the blower was on.',
    action: 'A card on the lid: air, strip, then feed. Trained again on 10 June.',
  });

  const well = { from: yard.well, gallons: 900 };
  const fed = { worm: 35, molasses: 1.2 };
  largeBrew(
    farm,
    'L-2',
    [
      { fedOn: '06-08', worm: 104, molasses: 3.2, on: [fields.corner, fields.orchard] },
      { fedOn: '06-11', ...fed, water: well, on: [fields.orchard, fields.corner] },
      { fedOn: '06-14', ...fed, on: [fields.corner, fields.orchard] },
      { fedOn: '06-17', ...fed, on: [fields.orchard, fields.corner] },
    ],
    '06-24',
  );

  // The sheet stayed in the tractor: typed in two days later, from paper made at the time.
  brew(farm, {
    ...{ code: 'T-14', in: yard.cone, of: recipes.house, day: '06-09', gallons: 420, water: yard.well },
    loads: [
      {
        ...{ gallons: 408, from: '06-10 07:00', to: '06-10 08:50', on: [{ ground: fields.orchard, acres: 5 }] },
        written: { entered: '06-12 18:05', origin: 'fromPaper' },
      },
    ],
  });

  wrongTime(farm);

  // Kelp whose approval had ended two days before.
  brew(farm, {
    ...{ code: 'T-16', in: yard.tote2, of: recipes.house, day: '06-16', gallons: 280, water: yard.town },
    loads: [{ gallons: 270, from: '06-17 07:00', to: '06-17 08:30', on: [{ ground: fields.orchard, acres: 4 }] }],
  });
  const renewal = { by: 'certifier' as const, reference: 'letter of 24 June', until: diary.date('12-31') };
  diary.write(
    'material.approved',
    '06-24 13:20',
    { materialId: stores.materials.kelp, ...renewal, from: diary.date('06-24') },
    { by: 'manager' },
  );

  wrongTank(farm);

  brew(farm, {
    ...{ code: 'T-18', in: yard.cone, of: recipes.plain, day: '06-26', gallons: 420, water: yard.well },
    loads: [
      {
        ...{ gallons: 400, from: '06-27 06:45', to: '06-27 08:20', on: [fields.orchard], method: 'foliar' },
        with: [{ lotId: stores.lots.copper1, quantity: gal(0.5) }],
      },
    ],
  });

  harvest(farm, 'H-0618', '06-18 11:00', fields.hill, 1_900, [
    { to: 'Saturday market', pounds: 700, reference: 'M-0620' },
    { to: 'packing shed', pounds: 1_200, reference: 'BOL 101' },
  ]);
  harvest(farm, 'H-0624', '06-24 10:20', fields.bed3, 160, [{ to: 'packing shed', pounds: 160, reference: 'BOL 104' }]);
  harvest(farm, 'H-0626', '06-26 10:10', fields.bed1, 150, [
    { to: 'Saturday market', pounds: 150, reference: 'M-0627' },
  ]);

  const drift = { fieldId: fields.orchard.fieldId, substance: 'herbicide, not named yet', how: 'drift' } as const;
  const reach = { value: 0.2, unit: '[acr_us]' };
  diary.write('field.exposed', '06-29 18:30', { ...drift, area: reach }, { by: 'manager' });
  const about = [fields.orchard.fieldId];
  diary.write('certifier.notified', '06-29 19:40', { about, how: 'by telephone, then in writing' }, { by: 'manager' });
}

/** T-15: the air off was typed as seven in the evening before; put right when the office read the record. */
function wrongTime(farm: Farm): void {
  const { yard, recipes, fields, diary } = farm;
  const { batchId, airOffRecordId } = brew(farm, {
    ...{ code: 'T-15', in: yard.tote1, of: recipes.house, day: '06-12', gallons: 280, water: yard.town },
    ...{ airOffAt: '06-12 19:20', airOffEntered: '06-13 07:22', reviewedOn: '06-19' },
    loads: [{ gallons: 270, from: '06-13 07:30', to: '06-13 09:00', on: [{ ground: fields.corner, acres: 2.5 }] }],
  });
  laboratory(farm, batchId, '06-13 07:25', '06-19 11:20', 6, 9);
  diary.write(
    'record.amended',
    '06-15 16:10',
    {
      ...{ recordId: airOffRecordId, type: 'batch.airStopped', version: 1 },
      data: { batchId, blowerId: yard.tote1.blowerId, cause: 'planned' },
      occurredAt: diary.instant('06-13 07:20'),
      reason: 'typed as the evening before; the air went off at 07:20 on the 13th',
    },
    { by: 'reviewer' },
  );
}

/** T-17: a reading of rinse water landed on the tea's record. */
function wrongTank(farm: Farm): void {
  const { yard, recipes, fields, diary, people } = farm;
  const kaolin = {
    equipmentId: yard.sprayer,
    what: 'kaolin clay on apples',
    where: 'Orchard',
    prohibited: 'no',
  } as const;
  diary.write('equipment.used', '06-21 11:00', kaolin, { performedBy: people.tobin });
  const rinse = {
    equipmentId: yard.sprayer,
    method: 'triple rinse',
    parts: ['tank', 'hoses', 'nozzles'],
    rinsed: true,
  };
  diary.write('equipment.cleaned', '06-21 14:00', rinse, { performedBy: people.tobin });
  const t17 = brew(farm, {
    ...{ code: 'T-17', in: yard.tote1, of: recipes.plain, day: '06-22', gallons: 150, water: yard.well },
    loads: [
      {
        ...{ gallons: 142, from: '06-23 06:40', to: '06-23 08:00', method: 'foliar', edibleParts: 'present' },
        on: [fields.bed2, fields.tunnel, { ground: fields.hill, acres: 1 }],
      },
    ],
  });
  const rinseWater = oxygen(farm, t17.batchId, ['06-22 16:40', 3.1, 74]);
  const struck = { recordId: rinseWater, type: 'batch.oxygenMeasured', reason: 'rinse water, typed on the wrong tank' };
  diary.write('record.struck', '06-23 09:15', struck);
}

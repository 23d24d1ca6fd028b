import { gal } from './amounts.ts';
import { answer } from './answer.ts';
import { brew } from './brew.ts';
import type { Farm } from './farm.ts';
import { largeBrew } from './largeBrewer.ts';

/** The big tank runs for nineteen days; a brew cut short, a power cut, and a brew that ran out of air to breathe. */
export function may(farm: Farm) {
  const { yard, recipes, fields, diary, people } = farm;

  const t06 = brew(farm, {
    ...{ code: 'T-06', in: yard.cone, of: recipes.fish, day: '05-04', gallons: 400, water: yard.well },
    loads: [
      { gallons: 200, from: '05-05 07:10', to: '05-05 08:20', on: [{ ground: fields.creek, acres: 2.2 }] },
      { gallons: 195, from: '05-05 08:35', to: '05-05 09:50', on: [{ ground: fields.creek, acres: 2.2 }] },
    ],
  });
  brew(farm, {
    ...{ code: 'T-07', in: yard.tote1, of: recipes.fish, day: '05-08', gallons: 280, water: yard.well },
    loads: [{ gallons: 272, from: '05-09 07:10', to: '05-09 08:50', on: [{ ground: fields.orchard, acres: 4 }] }],
  });

  const well = { from: yard.well, gallons: 900 };
  const fed = { worm: 35, molasses: 1.2 };
  const l01 = largeBrew(
    farm,
    'L-1',
    [
      { fedOn: '05-11', worm: 104, molasses: 3.2, on: [fields.orchard, fields.corner] },
      { fedOn: '05-14', ...fed, water: well, on: [fields.creek, fields.orchard] },
      { fedOn: '05-17', ...fed, water: well, on: [fields.corner, fields.creek] },
      // The well pump was down: town water went onto the living tea, and nobody held a strip into it.
      { fedOn: '05-20', ...fed, water: { ...well, from: yard.town }, on: [fields.orchard, fields.corner] },
      { fedOn: '05-23', ...fed, on: [fields.creek, fields.orchard] },
      { fedOn: '05-26', ...fed, on: [fields.corner, fields.creek] },
      { fedOn: '05-29', ...fed, on: [fields.orchard, fields.corner] },
    ],
    '06-05',
  );
  const foam = { batchId: l01, volume: gal(40), cause: 'foam', estimated: true } as const;
  diary.write('batch.lost', '05-11 09:30', foam, { performedBy: people.ines });

  // Rain was forecast for noon, so the tea went out after eighteen hours; the last of it on the new lettuce.
  const t08 = brew(farm, {
    ...{ code: 'T-08', in: yard.tote2, of: recipes.house, day: '05-13', gallons: 280, water: yard.town },
    fillAt: '05-13 13:15',
    oxygen: [
      ['05-13 20:00', 7.9, 64],
      ['05-14 06:30', 7.3, 62],
    ],
    loads: [
      { gallons: 250, from: '05-14 08:00', to: '05-14 09:15', on: [fields.south1] },
      { gallons: 20, from: '05-14 09:25', to: '05-14 09:50', on: [fields.bed3] },
    ],
  });
  const [t08ToSouth] = t08.loads;
  if (t08ToSouth !== undefined)
    answer(farm, '05-18 09:00', {
      ...{ rule: 'brew-minimum', about: ['draw', t08ToSouth.drawId] },
      cause: 'Rain was forecast; the tea was taken after 18 hours instead of a day later.',
      action: 'Brews are now begun at dawn two days before the window, and let stand if it rains.',
    });

  brew(farm, {
    ...{ code: 'T-09', in: yard.tote1, of: recipes.plain, day: '05-18', gallons: 120, water: yard.well },
    loads: [
      {
        ...{ gallons: 112, from: '05-19 06:50', to: '05-19 08:10', method: 'foliar', edibleParts: 'present' },
        on: [fields.bed1, fields.bed2, fields.tunnel],
      },
    ],
  });

  powerCut(farm);

  const t11 = brew(farm, {
    ...{ code: 'T-11', in: yard.tote2, of: recipes.house, day: '05-27', gallons: 280, water: yard.town },
    oxygen: [
      ['05-27 12:20', 7.2, 66],
      ['05-27 19:25', 5.2, 69],
      ['05-28 06:20', 5.6, 66],
    ],
    loads: [{ gallons: 270, from: '05-28 07:10', to: '05-28 08:40', on: [{ ground: fields.orchard, acres: 4 }] }],
  });
  answer(farm, '06-02 10:30', {
    ...{ rule: 'oxygen-minimum', about: ['batch', t11.batchId] },
    cause: 'Two of six diffusers had clogged with fines.',
    action: 'Diffusers are brushed after every brew; a spare set hangs by the tote.',
  });
  return { t06, t08, l01 };
}

/** T-10: found still at dawn. When the current went can only be bounded. */
function powerCut(farm: Farm): void {
  const { yard, recipes, fields, diary, people } = farm;
  const inesDid = { performedBy: people.ines };
  const { batchId } = brew(farm, {
    ...{ code: 'T-10', in: yard.cone, of: recipes.house, day: '05-22', gallons: 420, water: yard.well },
    oxygen: [
      ['05-22 12:15', 7.9, 63],
      ['05-22 19:15', 7.4, 65],
      ['05-23 06:05', 4.8, 62],
      ['05-23 06:55', 7.2, 62],
      ['05-23 08:45', 7.5, 63],
    ],
    loads: [{ gallons: 410, from: '05-23 09:20', to: '05-23 11:00', on: [{ ground: fields.corner, acres: 2.8 }] }],
  });
  const { blowerId } = yard.cone;
  diary.write(
    'batch.airStopped',
    '05-23 05:50',
    {
      ...{ batchId, blowerId, cause: 'powerCut' },
      lastKnownRunningAt: diary.instant('05-22 22:10'),
      foundAt: diary.instant('05-23 05:50'),
    },
    inesDid,
  );
  diary.write('batch.airStarted', '05-23 05:58', { batchId, blowerId }, inesDid);
  const smell = {
    batchId,
    airRunning: 'yes',
    surface: 'rolling',
    odour: 'earthy',
    note: 'after the power cut',
  } as const;
  diary.write('batch.checked', '05-23 06:40', smell, inesDid);
}

import type { Quantity } from '@furrowmark/domain';
import { betweenPads, gal, lb } from './amounts.ts';
import { oxygen, sign } from './brew.ts';
import { dayAfter, later, type Day } from './calendar.ts';
import type { Farm } from './farm.ts';
import type { Ground } from './ground.ts';
import { load } from './load.ts';
import type { Water } from './yard.ts';

/** One round of the Silo: fed (and perhaps watered) at dawn, drawn from the next morning in two loads. */
export interface Round {
  readonly fedOn: Day;
  readonly water?: { readonly from: Water; readonly gallons: number };
  readonly worm: number;
  readonly molasses: number;
  readonly on: readonly [Ground, Ground];
}

const FIRST_FILL = 4_000;
const LOAD = 450;

/** A brew of the 5,000 gallon tank: filled once, then fed, topped up and drawn from until it is emptied. */
export function largeBrew(farm: Farm, code: string, rounds: readonly Round[], reviewedOn: Day): string {
  const { diary, people, yard, recipes } = farm;
  const inesDid = { performedBy: people.ines };
  const batchId = diary.newId();
  const first = rounds[0]?.fedOn ?? '05-01';
  const { vesselId, blowerId } = yard.silo;
  const volume = gal(FIRST_FILL);

  diary.write('batch.opened', `${first} 04:00`, {
    ...{ batchId, code, kind: 'aeratedTea', vesselId, recipeId: recipes.field.recipeId, plannedVolume: volume },
  });
  const fill = { batchId, sourceId: yard.town.sourceId, volume, finishedAt: diary.instant(`${first} 05:50`) };
  diary.write('batch.filled', `${first} 05:50`, fill, inesDid);
  diary.write('batch.airStarted', `${first} 05:52`, { batchId, blowerId }, inesDid);
  const strip = { batchId, free: betweenPads(0, 0.5), method: 'strip', instrumentId: yard.strips };
  diary.write('batch.chlorineMeasured', `${first} 06:40`, strip, inesDid);

  let drawn = 0;
  let filled = FIRST_FILL;
  rounds.forEach((round, index) => {
    // The first morning the tank is fed once the chlorine is gone; later it is fed at half past five.
    const fedAt = `${round.fedOn} ${index === 0 ? '06:55' : '05:30'}`;
    if (round.water !== undefined) {
      const { from, gallons } = round.water;
      filled += gallons;
      const topUp = { batchId, sourceId: from.sourceId, volume: gal(gallons) };
      diary.write('batch.filled', later(fedAt, -15), topUp, inesDid);
    }
    const add = (lotId: string, quantity: Quantity, minutes: number): void => {
      diary.write('batch.ingredientAdded', later(fedAt, minutes), { batchId, lotId, quantity }, inesDid);
    };
    add(farm.stores.lots.worm2, lb(round.worm), 0);
    add(farm.stores.lots.molasses1, gal(round.molasses), 4);
    const nextFed = rounds[index + 1]?.fedOn ?? dayAfter(round.fedOn, 2);
    for (let day = round.fedOn; day < nextFed; day = dayAfter(day)) {
      const last = rounds.length - 1 === index && day !== round.fedOn;
      const times = last ? ['06:10'] : ['06:10', '13:30', '20:30'];
      times.forEach((time, step) => {
        if (day === first && step === 0) return;
        oxygen(farm, batchId, [`${day} ${time}`, [7.1, 7.4, 7.0][step] ?? 7, 64 + step]);
      });
    }
    const morning = dayAfter(round.fedOn);
    round.on.forEach((ground, step) => {
      drawn += LOAD;
      const from = `${morning} ${step === 0 ? '07:50' : '09:10'}`;
      load(farm, batchId, `A-${code}-${index + 1}${'ab'[step] ?? ''}`, {
        ...{ gallons: LOAD, from, to: later(from, 65), on: [{ ground, acres: Math.min(ground.acres, 2.5) }] },
      });
    });
  });

  const end = dayAfter(rounds.at(-1)?.fedOn ?? first);
  const rest = { batchId, volume: gal(filled - drawn - 20), reason: 'tank emptied for washing', where: 'pasture' };
  diary.write('batch.airStopped', `${end} 10:40`, { batchId, blowerId, cause: 'planned' }, inesDid);
  diary.write('batch.disposed', `${end} 11:30`, { ...rest, estimated: true }, inesDid);
  diary.write('batch.closed', `${end} 11:40`, { batchId, remainingVolume: gal(20) }, inesDid);
  const parts = ['tank', 'lid', 'diffusers', 'airLine', 'pump'];
  diary.write(
    'vessel.cleaned',
    `${end} 15:00`,
    { vesselId, method: 'pressure washer, brush, then peroxide', parts, contactMinutes: 20, rinsed: true },
    inesDid,
  );
  sign(farm, batchId, `${reviewedOn} 16:30`);
  return batchId;
}

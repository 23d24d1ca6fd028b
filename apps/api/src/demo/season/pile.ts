import type { Diary } from './diary.ts';
import { cubicYards, degF, lb } from './amounts.ts';
import { dayAfter, type Day } from './calendar.ts';
import type { Stores } from './stores.ts';

/** Degrees Fahrenheit of the windrow, north and south end, from its second day on: sixteen hot days, five turnings. */
const temperatures: readonly (readonly [number, number])[] = [
  [118, 121],
  [134, 136],
  [139, 141],
  [143, 144],
  [141, 139],
  [138, 140],
  [142, 143],
  [146, 144],
  [144, 141],
  [139, 138],
  [140, 142],
  [143, 145],
  [141, 140],
  [138, 137],
  [137, 139],
  [136, 135],
  [134, 133],
  [132, 132],
];
const turnedAfterDay = [4, 7, 10, 13, 16];

/** The farm's own windrow: laid in April, cured through May and June, a lot of its own from July on. */
export function ownPile(diary: Diary, { materials, lots }: Stores): { readonly lotId: string } {
  const pileId = diary.newId();
  const inputs = [
    { lotId: lots.manure1, quantity: cubicYards(5) },
    { lotId: lots.leaves1, quantity: cubicYards(9) },
  ];
  const started: Day = '04-10';
  diary.write('pile.started', `${started} 14:00`, {
    ...{ pileId, code: 'P-1', method: 'windrow', inputs, carbonToNitrogen: 29 },
  });
  temperatures.forEach(([north, south], index) => {
    const day = dayAfter(started, index + 1);
    diary.write('pile.measured', `${day} 07:50`, {
      pileId,
      temperatures: [
        { spot: 'north end, 2 ft', value: degF(north) },
        { spot: 'south end, 2 ft', value: degF(south) },
      ],
    });
    if (turnedAfterDay.includes(index + 1)) diary.write('pile.turned', `${day} 10:30`, { pileId });
  });
  const lotId = diary.newId();
  diary.write('pile.finished', '07-01 09:00', {
    ...{ pileId, lotId, code: 'OC-1', materialId: materials.own, quantity: lb(2_400) },
    curedFrom: diary.date('04-29'),
  });
  return { lotId };
}

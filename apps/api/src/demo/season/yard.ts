import type { Diary } from './diary.ts';
import { degF, gal, mgPerL, noneDetected } from './amounts.ts';
import type { Day, Stamp } from './calendar.ts';
import { dayAfter } from './calendar.ts';

/** Where water comes from, and what is done to it. */
export interface Water {
  readonly sourceId: string;
  readonly disinfectant: 'none' | 'chlorine' | 'chloramine';
}
export interface Vessel {
  readonly vesselId: string;
  readonly code: string;
  readonly blowerId: string;
}

export type Yard = ReturnType<typeof yard>;

/** Waters, vessels, machines and instruments, and their care through the season. */
export function yard(diary: Diary) {
  const by = { by: 'manager' } as const;
  const opening: Stamp = '04-06 09:30';

  const water = (
    code: string,
    kind: 'municipal' | 'well',
    disinfectant: Water['disinfectant'],
    treatment: readonly string[] = [],
  ): Water => {
    const sourceId = diary.newId();
    diary.write('source.registered', opening, { sourceId, code, kind, disinfectant, treatment }, by);
    return { sourceId, disinfectant };
  };
  const town = water('Town tap', 'municipal', 'chlorine');
  const well = water('Barn well', 'well', 'none');
  const depot = water('Depot hydrant', 'municipal', 'chloramine', ['carbon']);
  const document = (of: Water, covers: 'utilityReport' | 'assessment', from: Day, until: string): void => {
    const { sourceId } = of;
    diary.write('source.documented', '04-06 10:00', { sourceId, covers, from: diary.date(from), until }, by);
  };
  for (const tap of [town, depot]) document(tap, 'utilityReport', '01-01', diary.date('12-31'));
  for (const any of [town, well, depot]) document(any, 'assessment', '03-20', diary.date('03-19', diary.year + 1));
  const test = (of: Water, sampledAt: Stamp, reported: Stamp): void => {
    diary.write(
      'source.tested',
      reported,
      {
        sourceId: of.sourceId,
        sampledAt: diary.instant(sampledAt),
        laboratory: 'county laboratory',
        method: 'EPA 1603',
        results: [{ analyte: 'E. coli', value: noneDetected }],
      },
      { by: 'reviewer' },
    );
  };
  test(well, '04-06 07:40', '04-09 15:20');
  test(well, '07-06 07:30', '07-09 11:05');

  const machine = (code: string, kind: 'sprayer' | 'drench' | 'blower' | 'pump'): string => {
    const equipmentId = diary.newId();
    diary.write('equipment.registered', opening, { equipmentId, code, kind }, by);
    return equipmentId;
  };
  const blower1 = machine('Blower 1', 'blower');
  const blower2 = machine('Blower 2', 'blower');
  const sprayer = machine('Sprayer A', 'sprayer');
  const drenchRig = machine('Drench rig', 'drench');

  const vessel = (
    code: string,
    total: number,
    working: number,
    previousContents: 'none' | 'food',
    blowerId: string,
  ): Vessel => {
    const vesselId = diary.newId();
    const volumes = { totalVolume: gal(total), workingVolume: gal(working) };
    diary.write('vessel.registered', opening, { vesselId, code, ...volumes, previousContents, ownership: 'own' }, by);
    return { vesselId, code, blowerId };
  };
  const tote1 = vessel('Tote 1', 330, 300, 'none', blower1);
  const tote2 = vessel('Tote 2', 330, 300, 'food', blower1);
  const cone = vessel('Cone 500', 500, 450, 'none', blower1);
  const silo = vessel('Silo', 5_000, 4_800, 'none', blower2);

  for (const { vesselId } of [tote1, tote2, cone, silo]) {
    const parts = ['tank', 'lid', 'diffusers', 'airLine'];
    const washed = { vesselId, method: 'hot water, brush', parts, contactMinutes: 10, rinsed: true };
    diary.write('vessel.cleaned', '04-09 10:00', washed);
  }
  for (const equipmentId of [sprayer, drenchRig]) {
    diary.write('equipment.calibrated', '04-09 15:00', {
      equipmentId,
      nozzles: 18,
      flow: { value: 0.4, unit: '[gal_us]/min' },
      speed: { value: 4, unit: '[mi_i]/h' },
      swath: { value: 30, unit: '[ft_i]' },
    });
  }

  const instrument = (
    code: string,
    kind: 'opticalProbe' | 'strip' | 'dropKit' | 'thermometer',
    measures: readonly ('dissolvedOxygen' | 'temperature' | 'chlorine')[],
  ): string => {
    const instrumentId = diary.newId();
    diary.write('instrument.registered', opening, { instrumentId, code, kind, measures: [...measures] }, by);
    return instrumentId;
  };
  const meter = instrument('DO-1', 'opticalProbe', ['dissolvedOxygen', 'temperature']);
  const strips = instrument('Strips, tub 3', 'strip', ['chlorine']);
  const dropKit = instrument('Drop kit', 'dropKit', ['chlorine']);
  const dial = instrument('Pile dial', 'thermometer', ['temperature']);
  for (let day: Day = '04-10'; day < '08-25'; day = dayAfter(day, 20)) {
    diary.write('instrument.calibrated', `${day} 06:40`, {
      instrumentId: meter,
      standard: 'water-saturated air',
      readingBefore: mgPerL(8.9),
      readingAfter: mgPerL(9.1),
    });
    diary.write('instrument.checked', `${day} 06:55`, {
      instrumentId: dropKit,
      standard: 'standard solution',
      reading: mgPerL(0.8),
      expected: mgPerL(0.8),
    });
  }
  diary.write('instrument.checked', '04-07 06:30', {
    instrumentId: dial,
    standard: 'ice water',
    reading: degF(32),
    expected: degF(32),
  });

  return { town, well, depot, blower1, blower2, sprayer, drenchRig, tote1, tote2, cone, silo, meter, strips, dropKit };
}

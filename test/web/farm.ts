import { v7 } from 'uuid';
import type { TestOperation, TestService } from '../support/service.ts';

/** A small invented farm with tea in its tanks right now, for the browser to look at. */
export interface Farm extends TestOperation {
  readonly ids: Readonly<Record<Thing, string>>;
  /** Appends as the recorder. */
  write(type: string, minutesAgo: number, data: object, more?: object): Promise<string>;
}

const things = [
  ...['ines', 'tobin', 'tap', 'well', 'tote1', 'tote2', 'cone', 'blower1', 'blower2', 'sprayer', 'meter', 'strips'],
  ...['worm', 'kelp', 'fish', 'copper', 'vitamin', 'worm1', 'worm2', 'kelp1', 'fish1', 'vitamin1', 'house'],
  ...['north', 'south', 'orchard', 'carrots', 'lettuce', 'brewing', 'aerating', 'holding', 'finished'],
] as const;
export type Thing =
  | 'ines'
  | 'tobin'
  | 'tap'
  | 'well'
  | 'tote1'
  | 'tote2'
  | 'cone'
  | 'blower1'
  | 'blower2'
  | 'sprayer'
  | 'meter'
  | 'strips'
  | 'worm'
  | 'kelp'
  | 'fish'
  | 'copper'
  | 'vitamin'
  | 'worm1'
  | 'worm2'
  | 'kelp1'
  | 'fish1'
  | 'vitamin1'
  | 'house'
  | 'north'
  | 'south'
  | 'orchard'
  | 'carrots'
  | 'lettuce'
  | 'brewing'
  | 'aerating'
  | 'holding'
  | 'finished';

const gal = (value: number) => ({ value, unit: '[gal_us]' });
const lb = (value: number) => ({ value, unit: '[lb_av]' });
const mgPerL = (value: number) => ({ value, unit: 'mg/L' });
const degF = (value: number) => ({ value, unit: '[degF]' });
const day = 24 * 60;

/** RFC 3339, so many minutes before now. */
export const ago = (minutes: number): string =>
  new Date(Math.floor(Date.now() / 60_000 - minutes) * 60_000).toISOString();
const date = (daysAhead: number): string => new Date(Date.now() + daysAhead * 86_400_000).toISOString().slice(0, 10);

type Line = readonly [type: string, minutesAgo: number, data: object];

/** Registers the farm and what stands in its tanks: T-31 brews since 19 h, T-32 gets its first air, T-30 is held, T-29 is over. */
export async function farm(service: TestService): Promise<Farm> {
  const operation = await service.operation();
  const ids = Object.fromEntries(things.map((name) => [name, v7()])) as Record<Thing, string>; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- one id for each thing in the list above
  const record = (type: string, minutesAgo: number, data: object) => ({
    ...{ id: v7(), type, version: 1, occurredAt: ago(minutesAgo), enteredAt: ago(minutesAgo), data },
  });
  const append = async (role: 'manager' | 'recorder', records: readonly object[]) => {
    const answer = await service.append(operation.operationId, operation.tokens[role], records);
    const refused = answer.json?.results?.find((each: { status: string }) => each.status !== 'recorded');
    if (answer.status !== 200 || refused !== undefined) throw new Error(JSON.stringify(refused ?? answer.json));
  };
  await append(
    'manager',
    registers(ids).map((line) => record(...line)),
  );
  await append(
    'recorder',
    [...brews(ids)].map((line) => record(...line)),
  );
  return {
    ...operation,
    ids,
    async write(type, minutesAgo, data, more = {}) {
      const written = { ...record(type, minutesAgo, data), ...more };
      await append('recorder', [written]);
      return written.id;
    },
  };
}

function registers(id: Readonly<Record<Thing, string>>): readonly Line[] {
  const long = 90 * day;
  const material = (materialId: string, code: string, name: string, kind: string, more: object): Line => [
    'material.registered',
    long,
    { materialId, code, name, kind, animalOrigin: 'no', microbialFood: 'no', ...more },
  ];
  const approved = (materialId: string, from: number, until: number): Line => [
    'material.approved',
    long,
    { materialId, by: 'certifier', reference: 'list of inputs', from: date(from), until: date(until) },
  ];
  const lot = (lotId: string, code: string, materialId: string, quantity: object, more: object = {}): Line => [
    'lot.received',
    60 * day,
    { lotId, code, materialId, supplierLot: 'S-1', quantity, ...more },
  ];
  const vessel = (vesselId: string, code: string, working: number): Line => [
    'vessel.registered',
    long,
    { vesselId, code, totalVolume: gal(working + 30), workingVolume: gal(working), previousContents: 'none' },
  ];
  return [
    [
      'person.registered',
      long,
      { personId: id.ines, personal: { name: 'Ines Harrow', initials: 'IH' }, language: 'es' },
    ],
    ['person.registered', long, { personId: id.tobin, personal: { name: 'Tobin Quay', initials: 'TQ' } }],
    ['source.registered', long, { sourceId: id.tap, code: 'Town tap', kind: 'municipal', disinfectant: 'chlorine' }],
    ['source.registered', long, { sourceId: id.well, code: 'Barn well', kind: 'well', disinfectant: 'none' }],
    ['source.documented', long, { sourceId: id.tap, covers: 'utilityReport', from: date(-200), until: date(200) }],
    vessel(id.tote1, 'Tote 1', 300),
    vessel(id.tote2, 'Tote 2', 300),
    vessel(id.cone, 'Cone 500', 450),
    ['equipment.registered', long, { equipmentId: id.blower1, code: 'Blower 1', kind: 'blower' }],
    ['equipment.registered', long, { equipmentId: id.blower2, code: 'Blower 2', kind: 'blower' }],
    ['equipment.registered', long, { equipmentId: id.sprayer, code: 'Sprayer A', kind: 'sprayer' }],
    [
      'instrument.registered',
      long,
      { instrumentId: id.meter, code: 'DO-1', kind: 'opticalProbe', measures: ['dissolvedOxygen', 'temperature'] },
    ],
    [
      'instrument.calibrated',
      5 * day,
      { instrumentId: id.meter, standard: 'water-saturated air', readingAfter: mgPerL(9.1) },
    ],
    [
      'instrument.registered',
      long,
      { instrumentId: id.strips, code: 'Strips, tub 3', kind: 'strip', measures: ['chlorine'] },
    ],
    material(id.worm, 'WC', 'worm compost', 'vermicompost', {}),
    material(id.kelp, 'KM', 'kelp meal', 'nutrient', { microbialFood: 'yes' }),
    material(id.fish, 'FH', 'fish hydrolysate', 'nutrient', { animalOrigin: 'yes', microbialFood: 'yes' }),
    material(id.copper, 'CS', 'copper soap', 'other', { harmsTea: 'yes' }),
    material(id.vitamin, 'VC', 'vitamin C', 'neutralizer', {}),
    approved(id.worm, -300, 300),
    approved(id.kelp, -300, 300),
    approved(id.fish, -300, -20),
    approved(id.vitamin, -300, 300),
    lot(id.worm1, 'WC-26-1', id.worm, lb(400)),
    lot(id.worm2, 'WC-26-2', id.worm, lb(400)),
    ['lot.held', 30 * day, { lotId: id.worm2, reason: 'wet bag' }],
    lot(id.kelp1, 'KM-26-1', id.kelp, lb(100), { expiresOn: date(200) }),
    lot(id.fish1, 'FH-26-3', id.fish, gal(20), { expiresOn: date(200) }),
    lot(id.vitamin1, 'VC-26-1', id.vitamin, { value: 2, unit: 'kg' }),
    [
      'recipe.published',
      long,
      {
        ...{ recipeId: id.house, edition: 1, code: 'House tea', kind: 'aeratedTea', basisVolume: gal(300) },
        ingredients: [
          { materialId: id.worm, amount: lb(7) },
          { materialId: id.kelp, amount: lb(2) },
        ],
        brewFor: { value: 26, unit: 'h' },
      },
    ],
    [
      'field.registered',
      long,
      {
        fieldId: id.north,
        code: 'North 4',
        kind: 'field',
        area: { value: 6.5, unit: '[acr_us]' },
        landStatus: 'organic',
      },
    ],
    [
      'field.registered',
      long,
      {
        fieldId: id.south,
        code: 'South 1',
        kind: 'field',
        area: { value: 3, unit: '[acr_us]' },
        landStatus: 'organic',
      },
    ],
    [
      'field.registered',
      long,
      {
        fieldId: id.orchard,
        code: 'Orchard',
        kind: 'block',
        area: { value: 4, unit: '[acr_us]' },
        landStatus: 'organic',
      },
    ],
    [
      'planting.started',
      40 * day,
      {
        plantingId: id.carrots,
        fieldId: id.north,
        crop: 'carrots',
        ediblePart: 'root',
        plantedOn: date(-40),
        produceRule: 'covered',
      },
    ],
    [
      'planting.started',
      40 * day,
      {
        plantingId: id.lettuce,
        fieldId: id.south,
        crop: 'lettuce',
        ediblePart: 'leaf',
        plantedOn: date(-40),
        produceRule: 'covered',
      },
    ],
    ...[id.tote1, id.tote2, id.cone].map((vesselId): Line => [
      'vessel.cleaned',
      4 * day,
      { vesselId, method: 'hot water, brush', rinsed: true },
    ]),
  ];
}

function* brews(id: Readonly<Record<Thing, string>>): Generator<Line> {
  const begun = function* (
    batchId: string,
    code: string,
    vesselId: string,
    since: number,
    sourceId: string,
  ): Generator<Line> {
    yield [
      'batch.opened',
      since,
      { batchId, code, kind: 'aeratedTea', vesselId, recipeId: id.house, plannedVolume: gal(280) },
    ];
    yield ['batch.filled', since - 5, { batchId, sourceId, volume: gal(280) }];
    yield ['batch.airStarted', since - 8, { batchId, blowerId: vesselId === id.tote2 ? id.blower2 : id.blower1 }];
  };
  const fed = function* (batchId: string, at: number): Generator<Line> {
    yield [
      'batch.chlorineMeasured',
      at + 2,
      {
        batchId,
        free: { value: 0, high: 0.5, unit: 'mg/L', qualifier: 'between' },
        method: 'strip',
        instrumentId: id.strips,
      },
    ];
    yield ['batch.ingredientAdded', at, { batchId, lotId: id.worm1, quantity: lb(6.5) }];
    yield ['batch.ingredientAdded', at - 1, { batchId, lotId: id.kelp1, quantity: lb(1.9) }];
  };
  const oxygen = (batchId: string, at: number, value: number, f: number): Line => [
    'batch.oxygenMeasured',
    at,
    { batchId, dissolvedOxygen: mgPerL(value), temperature: degF(f), instrumentId: id.meter },
  ];

  const { finished, holding, brewing, aerating } = id;
  yield* begun(finished, 'T-29', id.tote1, 5 * day + 30, id.tap);
  yield* fed(finished, 5 * day - 10);
  yield oxygen(finished, 5 * day - 360, 7.8, 66);
  yield [
    'batch.airStopped',
    5 * day - 500,
    { batchId: finished, cause: 'powerCut', lastKnownRunningAt: ago(5 * day - 480), foundAt: ago(5 * day - 500) },
  ];
  yield ['batch.airStarted', 5 * day - 506, { batchId: finished, blowerId: id.blower1 }];
  yield oxygen(finished, 5 * day - 900, 7.2, 67);
  yield oxygen(finished, 5 * day - 1500, 6.9, 67);
  yield ['batch.airStopped', 5 * day - 1520, { batchId: finished, cause: 'planned' }];
  yield [
    'application.made',
    5 * day - 2080,
    {
      ...{
        applicationId: '01976f00-0000-7000-8000-000000000a31',
        code: 'A-29',
        targets: [{ fieldId: id.north, area: { value: 4, unit: '[acr_us]' } }],
      },
      draws: [{ batchId: finished, volume: gal(265), drawnAt: ago(5 * day - 1960) }],
      ...{
        startedAt: ago(5 * day - 1970),
        finishedAt: ago(5 * day - 2080),
        method: 'soilDrench',
        equipmentId: id.sprayer,
        applicator: id.tobin,
      },
    },
  ];
  yield ['batch.closed', 5 * day - 2100, { batchId: finished, remainingVolume: gal(12) }];

  yield* begun(holding, 'T-30', id.tote1, 30 * 60, id.tap);
  yield* fed(holding, 29.3 * 60);
  yield oxygen(holding, 22 * 60, 7.9, 66);
  yield oxygen(holding, 12 * 60, 7.4, 67);
  yield oxygen(holding, 3.2 * 60, 7.6, 66);
  yield ['batch.airStopped', 180, { batchId: holding, blowerId: id.blower1, cause: 'planned' }];
  yield oxygen(holding, 150, 7.35, 66);
  yield oxygen(holding, 100, 7.06, 66);
  yield oxygen(holding, 45, 6.68, 66);

  yield* begun(brewing, 'T-31', id.tote2, 20 * 60, id.tap);
  yield* fed(brewing, 19.4 * 60);
  yield oxygen(brewing, 13 * 60, 7.8, 66);
  yield oxygen(brewing, 8 * 60, 7.1, 67);

  yield* begun(aerating, 'T-32', id.cone, 20, id.tap);
}

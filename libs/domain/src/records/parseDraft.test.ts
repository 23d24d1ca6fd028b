import { describe, expect, it } from '@jest/globals';
import { example, without } from './corpus/read.ts';
import { parseDraft } from './parseDraft.ts';
import type { RecordProblem } from './problem.ts';

const now = Date.parse('2026-06-03T12:00:00Z');

function refusal(input: unknown): RecordProblem {
  const parsed = parseDraft(input, { now });
  if (parsed.ok) throw new Error('was accepted');
  return parsed.problem;
}
const pointers = (input: unknown): string[] => refusal(input).errors.map(({ pointer }) => pointer);
const accepted = (input: unknown): boolean => parseDraft(input, { now }).ok;
const gallons = (value: number) => ({ value, unit: '[gal_us]' });
const fill = (changes: Record<string, unknown>) => example('batch.filled', changes);
const oxygen = (changes: Record<string, unknown>) => example('batch.oxygenMeasured', changes);

describe('a version that is not known', () => {
  it('is said to be newer than the server', () => {
    const draft = example('batch.airStarted');
    const [newer] = refusal({ ...draft, version: 2 }).errors;
    expect(newer?.detail).toContain('is newer than this server knows (1): update the server');
  });
});

describe('a member that is missing, or of another kind', () => {
  const { volume, ...rest } = example('batch.filled').data;
  it('is said to be missing, or what it must be and what it is', () => {
    expect(volume).toBeDefined();
    const detail = (data: object) => refusal({ ...example('batch.filled'), data }).errors[0]?.detail;
    expect(detail(rest)).toContain('is missing: write it');
    expect(detail({ ...rest, volume: 250 })).toContain('not 250');
    expect(detail({ ...rest, volume: [] })).toContain('not a list');
    expect(detail({ ...rest, volume: 'much' })).toMatch(/must be .*, not /);
  });
});

describe('the envelope', () => {
  const draft = example('batch.airStarted');
  const cases: [string, unknown, string][] = [
    ['a list instead of a record', [], ''],
    ['null', null, ''],
    ['a text', 'batch', ''],
    ['an id in capitals', { ...draft, id: draft.id.toUpperCase() }, '/id'],
    ['no id', without({ ...draft, id: undefined }), '/id'],
    ['no data', without({ ...draft, data: undefined }), '/data'],
    ['a list as data', { ...draft, data: [] }, '/data'],
    ['a type that does not exist', { ...draft, type: 'batch.airstarted' }, '/type'],
    ['a type that every object inherits', { ...draft, type: 'toString' }, '/type'],
    ['a version in words', { ...draft, version: 'one' }, '/version'],
    ['a version that comes later', { ...draft, version: 2 }, '/version'],
    ['version 0', { ...draft, version: 0 }, '/version'],
    ['half a version', { ...draft, version: 1.5 }, '/version'],
    ['a time without offset', { ...draft, occurredAt: '2026-06-03T06:10:00' }, '/occurredAt'],
    ['30 February', { ...draft, occurredAt: '2026-02-30T06:10:00Z' }, '/occurredAt'],
    ['29 February of a common year', { ...draft, occurredAt: '2026-02-29T06:10:00Z' }, '/occurredAt'],
    ['hour 24', { ...draft, occurredAt: '2026-06-02T24:00:00Z' }, '/occurredAt'],
    ['a negative uncertainty', { ...draft, plusMinusMinutes: -1 }, '/plusMinusMinutes'],
    ['an unknown origin', { ...draft, origin: 'guessed' }, '/origin'],
    ['a name for a person id', { ...draft, performedBy: 'Ines' }, '/performedBy'],
    ['a member of nobody', { ...draft, colour: 'green' }, '/colour'],
    ['a sequence number', { ...draft, seq: 4 }, '/seq'],
    ['an operation', { ...draft, operationId: draft.id }, '/operationId'],
  ];
  it.each(cases)('refuses %s', (_name, input, pointer) => {
    expect(pointers(input)).toEqual([pointer]);
  });

  it('takes lower-case t and z, and fractions of a second, as RFC 3339 allows', () => {
    expect(accepted({ ...draft, occurredAt: '2026-06-03t06:10:00.125z' })).toBe(true);
  });
  it('says that the log sets the sequence number', () => {
    expect(refusal({ ...draft, seq: 4 }).code).toBe('not-permitted');
  });
  it('guesses the type that was meant', () => {
    expect(refusal({ ...draft, type: 'batch.airstart' }).detail).toContain('did you mean batch.airStarted');
  });
  it('refuses a name that would reach into the runtime', () => {
    const hostile: unknown = JSON.parse('{"id":"x","__proto__":{"type":"batch.opened"}}');
    expect(pointers(hostile)).toEqual(['/__proto__']);
    expect(accepted(JSON.parse(JSON.stringify(draft).replace('"batchId"', '"__proto__":{},"batchId"')))).toBe(false);
  });
  it('points with escapes where a name holds a slash or tilde (RFC 6901 §3)', () => {
    expect(pointers({ ...draft, 'a/b~c': 1 })).toEqual(['/a~1b~0c']);
  });
});

describe('when something was done', () => {
  const at = (occurredAt: string) => ({ ...example('batch.airStarted'), occurredAt });
  it('24 hours ahead is taken, a second more is not', () => {
    expect(accepted(at('2026-06-04T12:00:00Z'))).toBe(true);
    expect(refusal(at('2026-06-04T12:00:01Z'))).toMatchObject({
      code: 'impossible',
      errors: [{ pointer: '/occurredAt' }],
    });
  });
  it('1970 is taken, 1969 is not', () => {
    expect(accepted(at('1970-01-01T00:00:00Z'))).toBe(true);
    expect(pointers(at('1969-12-31T23:59:59Z'))).toEqual(['/occurredAt']);
  });
  it('the clock of the device counts too', () => {
    expect(pointers({ ...example('batch.airStarted'), enteredAt: '2027-01-01T00:00:00Z' })).toEqual(['/enteredAt']);
  });
  it('an application next week is not yet done', () => {
    const times = { startedAt: '2026-06-10T08:00:00Z', finishedAt: '2026-06-10T09:00:00Z' };
    expect(pointers(example('application.made', times))).toEqual(['/data/startedAt', '/data/finishedAt']);
  });
  it('a draw inside an application, and the time that an amendment gives, count as done', () => {
    const load = {
      batchId: example('batch.opened').data['batchId'],
      volume: gallons(5),
      drawnAt: '2026-07-01T00:00:00Z',
    };
    expect(pointers(example('application.made', { draws: [load] }))).toEqual(['/data/draws/0/drawnAt']);
    expect(pointers(example('record.amended', { occurredAt: '2026-07-01T00:00:00Z' }))).toEqual(['/data/occurredAt']);
  });
  it('approvals, expiries and a rule book may lie ahead', () => {
    expect(accepted(example('material.approved', { from: '2026-09-01', until: '2031-09-01' }))).toBe(true);
    expect(accepted(example('lot.received', { expiresOn: '2031-09-01' }))).toBe(true);
    expect(accepted(example('certifier.wrote', { dueOn: '2031-09-01' }))).toBe(true);
    expect(accepted(example('ruleBook.adopted', { effectiveFrom: '2027-01-01T00:00:00Z' }))).toBe(true);
  });
  it('a bucket weighed next month was not weighed', () => {
    expect(pointers(example('measure.registered', { weighedOn: '2026-07-03' }))).toEqual(['/data/weighedOn']);
  });
  it('an orchard may have been planted, and land sprayed, long before 1970', () => {
    expect(accepted(example('planting.started', { plantedOn: '1931' }))).toBe(true);
    expect(accepted(example('field.registered', { lastProhibitedOn: '1968-05-01' }))).toBe(true);
  });
});

describe('what is impossible in itself', () => {
  const app = (changes: Record<string, unknown>) => example('application.made', changes);
  const cases: [string, unknown, string][] = [
    ['a negative volume', fill({ volume: gallons(-1) }), '/data/volume/value'],
    ['negative oxygen', oxygen({ dissolvedOxygen: { value: -0.1, unit: 'mg/L' } }), '/data/dissolvedOxygen/value'],
    [
      'water colder than absolute zero',
      oxygen({ temperature: { value: -460, unit: '[degF]' } }),
      '/data/temperature/value',
    ],
    [
      'an application that ends before it starts',
      app({ startedAt: '2026-04-21T17:40:00-04:00', finishedAt: '2026-04-21T17:39:59-04:00' }),
      '/data/finishedAt',
    ],
    [
      'an end that is earlier by its offset only',
      app({ startedAt: '2026-04-21T17:40:00-04:00', finishedAt: '2026-04-21T17:41:00-03:00' }),
      '/data/finishedAt',
    ],
    [
      'air known to run after it was found off',
      example('batch.airStopped', {
        lastKnownRunningAt: '2026-04-20T23:00:00-04:00',
        foundAt: '2026-04-20T22:00:00-04:00',
      }),
      '/data/lastKnownRunningAt',
    ],
    ['an approval that ends before it begins', example('material.approved', { until: '2026-03-02' }), '/data/until'],
    [
      'a strip between two pads, the upper not above the lower',
      example('batch.chlorineMeasured', { free: { value: 0.5, unit: 'mg/L', qualifier: 'between', high: 0.5 } }),
      '/data/free/high',
    ],
    ['a negative contact time', example('vessel.cleaned', { contactMinutes: -1 }), '/data/contactMinutes'],
  ];
  it.each(cases)('refuses %s', (_name, input, pointer) => {
    const { code, errors } = refusal(input);
    expect({ code, pointers: errors.map((error) => error.pointer) }).toEqual({
      code: 'impossible',
      pointers: [pointer],
    });
  });

  it.each([
    ['a pile below freezing', example('pile.measured', { temperatures: [{ value: { value: -4, unit: '[degF]' } }] })],
    ['an empty tank at closing', example('batch.closed', { remainingVolume: gallons(0) })],
    ['a farm below the sea', example('operation.described', { elevation: { value: -3, unit: 'm' } })],
    ['an application of no length', app({ startedAt: '2026-04-21T17:40:00-04:00' })],
    ['a tank filled above its size: a rule may mind, the record stands', fill({ volume: gallons(99_999) })],
    ['air known to run until a time, found off at none', example('batch.airStopped', { foundAt: undefined })],
    [
      'air found off in the minute when it was last known to run',
      example('batch.airStopped', {
        lastKnownRunningAt: '2026-04-20T23:00:00-04:00',
        foundAt: '2026-04-20T22:00:00-05:00',
      }),
    ],
    ['air found off, last known to run at no time', example('batch.airStopped', { lastKnownRunningAt: undefined })],
    ['the sour end of the pH scale', example('batch.checked', { pH: 0 })],
    ['the other end', example('batch.checked', { pH: 14 })],
    ['an approval of one day', example('material.approved', { until: '2026-03-03' })],
  ])('takes %s', (_name, input) => {
    expect(accepted(input)).toBe(true);
  });
});

describe('quantities', () => {
  it('names the code to write for a unit in everyday words', () => {
    expect(refusal(fill({ volume: { value: 5, unit: 'gal' } })).errors).toEqual([
      {
        pointer: '/data/volume/unit',
        detail: '“volume › unit” “gal” is not a known UCUM code: use the UCUM code [gal_us].',
      },
    ]);
    const acre = example('field.registered', { area: { value: 5, unit: 'acres' } });
    expect(refusal(acre).detail).toContain('[acr_us]');
    const ounces = example('batch.ingredientAdded', { quantity: { value: 5, unit: 'oz' } });
    expect(refusal(ounces).detail).toContain('[oz_av]');
  });
  it('refuses a unit that measures something else', () => {
    expect(refusal(fill({ volume: { value: 5, unit: 'h' } })).errors).toMatchObject([
      { pointer: '/data/volume/unit', detail: expect.stringContaining('does not measure volume') },
    ]);
  });
  it.each([
    ['milligrams per litre', 'mg/L', true],
    ['parts per million, as strips print it', '[ppm]', true],
    ['per cent', '%', false],
    ['a volume', 'L', false],
  ])('chlorine in %s (%s): %s', (_name, unit, taken) => {
    expect(accepted(example('batch.chlorineMeasured', { free: { value: 1, unit } }))).toBe(taken);
  });
  it.each(['{CFU}/(100.mL)', '{MPN}/(100.mL)', '{CFU}/dL', '{MPN}/(4.g)', '[pH]', 'mg/L', '%', '{NTU}'])(
    'a laboratory may report in %s',
    (unit) => {
      const result = (value: number) =>
        example('batch.analysed', { results: [{ analyte: 'any', value: { value, unit } }] });
      expect(accepted(result(3))).toBe(true);
      expect(pointers(result(-3))).toEqual(['/data/results/0/value/value']);
    },
  );
  it('a lot may come by weight, volume, count of bags or household measure, not as a percentage', () => {
    const lot = (quantity: unknown) => example('lot.counted', { quantity });
    const measureId = example('measure.registered').data['measureId'];
    for (const unit of ['[lb_av]', '[cyd_i]', '{bag}', '1']) expect(accepted(lot({ value: 3, unit }))).toBe(true);
    expect(accepted(lot({ value: 3, unit: '{measure}', measureId }))).toBe(true);
    expect(pointers(lot({ value: 3, unit: '%' }))).toEqual(['/data/quantity/unit']);
    expect(pointers(lot({ value: 3, unit: '{measure}' }))).toEqual(['/data/quantity/measureId']);
    expect(pointers(lot({ value: 3, unit: '[lb_av]', measureId }))).toEqual(['/data/quantity/measureId']);
  });
  it('a household measure is not worth another household measure', () => {
    expect(pointers(example('measure.registered', { equals: { value: 1, unit: '{measure}' } }))).toEqual([
      '/data/equals/unit',
    ]);
  });
  it('“less than” belongs to meters and laboratories, not to what was poured', () => {
    expect(pointers(fill({ volume: { ...gallons(5), qualifier: '<' } }))).toEqual(['/data/volume/qualifier']);
    expect(accepted(oxygen({ dissolvedOxygen: { value: 20, unit: 'mg/L', qualifier: '>' } }))).toBe(true);
  });
  it('an upper end and “between” come together', () => {
    const free = (more: object) => example('batch.chlorineMeasured', { free: { value: 1, unit: 'mg/L', ...more } });
    expect(pointers(free({ qualifier: 'between' }))).toEqual(['/data/free/high']);
    expect(pointers(free({ high: 2 }))).toEqual(['/data/free/high']);
    // What should not stand there is not compared as well.
    expect(pointers(free({ high: 0.5 }))).toEqual(['/data/free/high']);
    expect(pointers(free({ qualifier: '<', high: 0.5 }))).toEqual(['/data/free/high']);
    expect(accepted(free({ qualifier: 'between', high: 1.5 }))).toBe(true);
  });
  it('refuses a number written as text, and no number at all', () => {
    expect(pointers(fill({ volume: { value: '5', unit: 'L' } }))).toEqual(['/data/volume/value']);
    expect(pointers(fill({ volume: { unit: 'L' } }))).toEqual(['/data/volume/value']);
    expect(pointers(fill({ volume: 5 }))).toEqual(['/data/volume']);
  });
});

describe('members', () => {
  it('an unknown one is named, with the one that was probably meant', () => {
    expect(refusal(fill({ volum: gallons(3) })).errors).toEqual([
      { pointer: '/data/volum', detail: '“volum” is not a member of this record: did you mean “volume”.' },
    ]);
    expect(refusal(fill({ volume: { ...gallons(3), units: 'L' } })).errors).toMatchObject([
      { pointer: '/data/volume/units', detail: expect.stringContaining('did you mean “unit”') },
    ]);
  });
  it('each unknown one gets its own pointer', () => {
    expect(pointers(fill({ colour: 1, smell: 2 }))).toEqual(['/data/colour', '/data/smell']);
  });
  it('a flood of them is answered with the first fifty', () => {
    const flood = Object.fromEntries(Array.from({ length: 20_000 }, (_, i) => [`stray${String(i)}`, 1]));
    expect(pointers(fill(flood))).toHaveLength(50);
    expect(pointers(fill({ volume: Array.from({ length: 20_000 }, () => 1e15) }))).toHaveLength(50);
  });
  it.each([
    [1, ''],
    [2, ' (1 more below)'],
    [50, ' (49 more below)'],
    [51, ' (49 more below)'],
    [20_000, ' (49 more below)'],
  ])('of %i the first is told in words, with how many more stand below it%s', (count, more) => {
    const strays = Object.fromEntries(Array.from({ length: count }, (_, i) => [`stray${String(i)}`, 1]));
    const numbers = { volume: Array.from({ length: count }, () => 1e15) };
    for (const { detail, errors } of [refusal(fill(strays)), refusal(fill(numbers))]) {
      expect(detail).toBe(`${errors[0]?.detail ?? ''}${more}`);
      expect(errors).toHaveLength(Math.min(count, 50));
    }
  });
  it('a number below its least is said to be negative only where nought is the least', () => {
    const detail = (input: unknown) => refusal(input).errors.map((each) => each.detail);
    expect(detail(example('vessel.cleaned', { contactMinutes: -1 }))).toEqual([
      '“contactMinutes” must not be negative.',
    ]);
    expect(detail(example('recipe.published', { edition: 0 }))).toEqual(['“edition” must not be below 1.']);
    expect(detail(example('recipe.published', { edition: -3 }))).toEqual(['“edition” must not be below 1.']);
  });
  it('a missing one is said to be missing', () => {
    expect(refusal(example('batch.opened', { code: undefined })).errors).toEqual([
      { pointer: '/data/code', detail: '“code” is missing: write it.' },
    ]);
  });
  it('a code of blanks is no code', () => {
    expect(pointers(example('batch.opened', { code: '  ' }))).toEqual(['/data/code']);
  });
  it('a word off the list is answered with the list', () => {
    expect(refusal(example('batch.checked', { odour: 'earthly' })).detail).toBe(
      '“odour” must be one of earthy, sweet, yeasty, sour, rotten, ammonia: did you mean earthy.',
    );
  });
  it('a word like none on the list is answered with the list alone, and a missing one too', () => {
    const list = 'earthy, sweet, yeasty, sour, rotten, ammonia';
    expect(refusal(example('batch.checked', { odour: 'petrol' })).detail).toBe(`“odour” must be one of ${list}.`);
    expect(refusal(example('batch.opened', { kind: undefined })).detail).toMatch(
      /^“kind” is missing: write one of aeratedTea, /,
    );
  });
  it('a list with too little in it is told what it must have', () => {
    const boundary = { type: 'Polygon', coordinates: [] };
    expect(refusal(example('field.registered', { boundary })).detail).toContain('must have an outline');
  });
  it('null is not an absent member', () => {
    expect(refusal(example('batch.opened', { recipeId: null })).errors).toEqual([
      { pointer: '/data/recipeId', detail: '“recipeId” must be a text, not null.' },
    ]);
  });
  it('chlorine needs a place and a figure', () => {
    const chlorine = (changes: Record<string, unknown>) => pointers(example('batch.chlorineMeasured', changes));
    expect(chlorine({ batchId: undefined })).toEqual(['/data/batchId']);
    expect(chlorine({ free: undefined })).toEqual(['/data/free']);
  });
  it('a target is a field or a lot of compost, not both, not neither', () => {
    const target = (targets: unknown) => pointers(example('application.made', { targets }));
    const fieldId = example('field.registered').data['fieldId'];
    const lotId = example('lot.received').data['lotId'];
    expect(target([{}])).toEqual(['/data/targets/0/fieldId']);
    expect(target([{ fieldId, lotId }])).toEqual(['/data/targets/0/fieldId']);
    const said = (targets: unknown) => refusal(example('application.made', { targets })).detail;
    expect(said([{}])).toContain('is missing: name the field, or the lot of compost that was wetted');
    expect(said([{ fieldId, lotId }])).toContain('and lotId stand side by side: write two targets');
  });
  it('a load is a recorded draw, or a batch with its volume', () => {
    const load = (draw: unknown) => pointers(example('application.made', { draws: [draw] }));
    const batchId = example('batch.opened').data['batchId'];
    expect(load({ batchId })).toEqual(['/data/draws/0/volume']);
    expect(load({ drawId: 'first' })).toEqual(['/data/draws/0/drawId']);
    expect(load('first')).toEqual(['/data/draws/0']);
  });
  it('where one of several shapes is meant, its members are known too, and all shapes are named', () => {
    const batchId = example('batch.opened').data['batchId'];
    const load = { batchId, volume: gallons(3), drawAt: '2026-04-21T17:40:00-04:00' };
    expect(refusal(example('application.made', { draws: [load] })).errors).toMatchObject([
      { pointer: '/data/draws/0/drawAt', detail: expect.stringContaining('did you mean “drawnAt”') },
    ]);
    expect(refusal(example('vessel.cleaned', { strength: 7 })).errors).toMatchObject([
      { pointer: '/data/strength', detail: '“strength” must be an object with members or a text, not a number.' },
    ]);
  });
  it('of two shapes the one with the fewest faults is told, of as many the one whose members were written', () => {
    const { batchId } = example('batch.opened').data;
    const drawId = example('batch.drawn').data['drawId'];
    const volume = gallons(3);
    const faults = (load: object) =>
      refusal(example('application.made', { draws: [load] })).errors.map(
        ({ pointer, detail }) => `${pointer.replace('/data/draws/0/', '')} ${detail.replace(/^“.*?” /, '')}`,
      );
    const stray = (name: string) => `${name} does not go with what stands beside it: leave it out.`;
    // The members of both are there: what is too much is named, not taken for a slip of the pen.
    expect(faults({ drawId, volume })).toEqual([stray('volume')]);
    expect(faults({ drawId, batchId, volume })).toEqual([stray('drawId')]);
    expect(faults({ drawId, batchId: 'T-14', volume: 3 })).toEqual([stray('batchId'), stray('volume')]);
    expect(faults({ drawId: 7, drawnAt: 'noon', keptAerated: 'yes' })).toEqual([
      'drawId must be a text, not 7.',
      ...[stray('drawnAt'), stray('keptAerated')],
    ]);
    expect(faults({ batchId: 'T-14', volume: 3 })).toEqual([
      expect.stringMatching(/^batchId must be a UUID/),
      expect.stringMatching(/^volume must be an object/),
    ]);
    expect(faults({ batchId: 'T-14', gallons: 5 })).toEqual([
      expect.stringMatching(/^batchId must be a UUID/),
      'volume is missing: write it.',
      expect.stringMatching(/^gallons is not a member of this record: known here are drawId, /),
    ]);
    expect(faults({})).toEqual(['drawId is missing: write it.']);
  });
  it('a revision changes something', () => {
    const vesselId = example('vessel.registered').data['vesselId'];
    expect(pointers({ ...example('vessel.revised'), data: { vesselId } })).toEqual(['/data']);
    expect(pointers({ ...example('operation.revised'), data: {} })).toEqual(['/data']);
  });
  it('a time zone is one of the IANA list; a bare offset would be wrong after the clocks change', () => {
    const zone = (timeZone: string) => accepted(example('operation.described', { timeZone }));
    expect([zone('America/Chicago'), zone('UTC'), zone('-05:00'), zone('Iowa')]).toEqual([true, true, false, false]);
  });
});

describe('field boundaries (RFC 7946 §3.1.6)', () => {
  const field = (coordinates: unknown, more: object = {}) =>
    example('field.registered', { boundary: { type: 'Polygon', coordinates, ...more } });
  const square = [
    [-74.2, 42.1],
    [-74.1, 42.1],
    [-74.1, 42.2],
    [-74.2, 42.2],
  ];
  const [corner] = square;
  const circle = (n: number) => {
    const points = Array.from({ length: n - 1 }, (_, i) => [Math.round(i) / 1000, 42]);
    return [...points, points[0]];
  };

  it('refuses a ring that is not closed, and one of three positions', () => {
    expect(refusal(field([square])).errors).toMatchObject([
      { pointer: '/data/boundary/coordinates/0', detail: expect.stringContaining('repeat its first position') },
    ]);
    expect(pointers(field([[corner, square[1], corner]]))).toEqual(['/data/boundary/coordinates/0']);
  });
  it('refuses a latitude of 91 and a longitude of 181', () => {
    expect(pointers(field([[corner, [-74.2, 91], square[2], corner]]))).toEqual(['/data/boundary/coordinates/0/1']);
    expect(pointers(field([[corner, [181, 42], square[2], corner]]))).toEqual(['/data/boundary/coordinates/0/1']);
    // The date line and the pole are places.
    const [east, west, north] = [
      [180, 89],
      [179, 89],
      [180, 90],
    ];
    const pole = field([[east, west, north, east]]);
    expect(parseDraft(pole, { now }).ok).toBe(true);
  });
  it('takes 1,000 positions and refuses 1,001, holes counted', () => {
    expect(accepted(field([circle(1000)]))).toBe(true);
    expect(pointers(field([circle(1001)]))).toEqual(['/data/boundary/coordinates']);
    expect(pointers(field([circle(500), circle(501)]))).toEqual(['/data/boundary/coordinates']);
  });
  it('takes no other shape', () => {
    expect(refusal(field([[...square, corner]], { type: 'polygon' })).errors).toEqual([
      { pointer: '/data/boundary/type', detail: '“boundary › type” must be Polygon.' },
    ]);
  });
  it('a position is longitude, latitude and perhaps a height, no less and no more', () => {
    const told = (position: readonly number[]) => {
      const parsed = parseDraft(field([[position, square[1], square[2], position]]), { now });
      return parsed.ok ? [] : parsed.problem.errors.map(({ detail }) => detail.replace(/^“.*” /, ''));
    };
    const wrong = 'must be longitude, then latitude.';
    expect(told([-74.2, 42.1])).toEqual([]);
    expect(told([-74.2, 42.1, 310])).toEqual([]);
    for (const position of [[], [-74.2], [-74.2, 42.1, 310, 7]]) expect(told(position)).toEqual([wrong, wrong]);
  });
});

describe('limits of text and number', () => {
  const note = (text: string) => example('batch.checked', { note: text });
  it('takes 10,000 characters, refuses 10,001; a character outside the basic plane is one', () => {
    expect(accepted(note('x'.repeat(10_000)))).toBe(true);
    expect(accepted(note('𝄞'.repeat(10_000)))).toBe(true);
    expect(pointers(note('x'.repeat(10_001)))).toEqual(['/data/note']);
  });
  it('refuses NUL and half characters, in names too', () => {
    expect(pointers(note('a\0b'))).toEqual(['/data/note']);
    expect(pointers(note('a\ud800'))).toEqual(['/data/note']);
    expect(pointers(example('batch.checked', { 'no\0te': 'x' }))).toEqual(['/data/no\0te']);
  });
  it.each([
    [123456789.123456, true],
    [0.000000000000123456789012345, true],
    [1e11, true],
    [-0, true],
    [999999999999, true],
    [1e12, false],
    [0.1234567890123456, false],
    [1.000000000000001, false],
  ])('%p gallons: %p', (value, taken) => {
    expect(accepted(fill({ volume: gallons(value) }))).toBe(taken);
  });
  it('takes 20 levels, refuses 21', () => {
    const nested = (levels: number): unknown => (levels === 0 ? 1 : { in: nested(levels - 1) });
    const depth = (levels: number) => refusal({ ...example('batch.airStarted'), data: nested(levels) }).detail;
    expect(depth(19)).not.toContain('deeper');
    expect(depth(20)).toContain('deeper than 20 levels');
  });
});

describe('who may write what', () => {
  it.each(['access.granted', 'access.withdrawn', 'access.used', 'key.replaced', 'log.restored', 'import.made'])(
    '%s is the server’s alone',
    (type) => {
      expect(refusal({ ...example('batch.airStarted'), type, data: {} })).toMatchObject({
        code: 'not-permitted',
        errors: [{ pointer: '/type' }],
      });
    },
  );
  it('a seal is not sent, neither in a registration nor in its amendment', () => {
    const sealed = { personal: { sealed: 'lTIRYTVRfa8ZZJkCXs6yM5SAGTJb9Bt9NxLgDEtFoJY=' } };
    expect(pointers(example('person.registered', sealed))).toEqual(['/data/personal/sealed']);
    const { version, type, data } = example('person.registered', sealed);
    expect(pointers(example('record.amended', { version, type, data }))).toEqual(['/data/data/personal/sealed']);
  });
  it('a person has no member for e-mail or telephone', () => {
    expect(pointers(example('person.registered', { personal: { name: 'Ines Harrow', email: 'x' } }))).toEqual([
      '/data/personal/email',
    ]);
  });
});

describe('corrections', () => {
  const amend = (type: string, data: unknown, more: object = {}) => example('record.amended', { type, data, ...more });
  it('corrected data is checked as data of the type that it corrects', () => {
    const { data } = fill({ volume: gallons(-5) });
    expect(refusal(amend('batch.filled', data))).toMatchObject({
      code: 'impossible',
      errors: [{ pointer: '/data/data/volume/value' }],
    });
    expect(pointers(amend('batch.filled', { ...data, volume: gallons(5), colour: 1 }))).toEqual(['/data/data/colour']);
    expect(pointers(amend('batch.filed', data))).toEqual(['/data/type']);
    expect(pointers(amend('batch.filled', data, { version: 9 }))).toEqual(['/data/version']);
  });
  it('corrected times are still times of something done', () => {
    const { data } = example('application.made', {
      startedAt: '2027-01-01T00:00:00Z',
      finishedAt: '2027-01-01T00:00:00Z',
    });
    expect(pointers(amend('application.made', data))).toEqual(['/data/data/startedAt', '/data/data/finishedAt']);
  });
  const final = ['ruleBook.adopted', 'batch.reviewed', 'person.erased'];
  it.each([
    ...final,
    'access.granted',
    'access.used',
    'access.withdrawn',
    'key.replaced',
    'log.restored',
    'import.made',
  ])('%s is never amended or struck', (type) => {
    const data = final.includes(type) ? example(type).data : {};
    expect(refusal(amend(type, data))).toMatchObject({ code: 'not-permitted', errors: [{ pointer: '/data/type' }] });
    expect(refusal(example('record.struck', { type }))).toMatchObject({
      code: 'not-permitted',
      errors: [{ pointer: '/data/type' }],
    });
  });
  it('nor by a strike hidden in an amendment', () => {
    const strike = example('record.struck', { type: 'batch.reviewed' }).data;
    expect(pointers(amend('record.struck', strike))).toEqual(['/data/data/type']);
  });
  it('a strike may itself be struck, an amendment amended', () => {
    expect(accepted(example('record.struck', { type: 'record.struck' }))).toBe(true);
    expect(accepted(amend('record.amended', example('record.amended').data))).toBe(true);
  });
});

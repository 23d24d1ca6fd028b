import { describe, expect, it } from '@jest/globals';
import { asOf } from '../facts/asOf.ts';
import { idOf, litresOf, pounds } from '../testing/book.ts';
import { airOff, apply, brew, draw, farm, field, fill, lot, open, put } from '../testing/brew.ts';
import { openSeason } from './season.ts';
import { seasonAt } from './seasonAt.ts';

const at = (text: string) => Date.parse(text);

describe('a registered thing', () => {
  it('is what it was registered as for all time, and changes from each revision on', () => {
    const book = farm();
    book.write('source.revised', '10 08:00', { sourceId: idOf('city water'), disinfectant: 'chloramine' });
    const source = openSeason(book.records).source(idOf('city water'));
    if (source === undefined) throw new Error('no source');
    expect(asOf(source, at('2020-01-01T00:00:00Z')).disinfectant).toBe('chlorine');
    expect(asOf(source, at('2026-06-10T07:59:59Z')).disinfectant).toBe('chlorine');
    expect(asOf(source, at('2026-06-10T08:00:00Z'))).toMatchObject({ disinfectant: 'chloramine', code: 'W1' });
  });

  it('described twice shows the description that is last in order, and names the other as rival', () => {
    const book = farm();
    const [first] = book.records.filter((record) => record.type === 'vessel.registered');
    book.write('vessel.registered', '02 08:00', {
      vesselId: idOf('tote'),
      code: 'Tote two',
      totalVolume: litresOf(1),
      workingVolume: litresOf(1),
      previousContents: 'food',
    });
    const vessel = openSeason(book.records.toReversed()).vessel(idOf('tote'));
    expect(vessel?.registered.code).toBe('Tote two');
    expect(vessel?.rivals).toEqual([first?.id]);
  });

  it('a fill is judged by what the water was disinfected with on its day', () => {
    const book = farm();
    book.write('source.revised', '10 08:00', { sourceId: idOf('city water'), disinfectant: 'chloramine' });
    open(book, 'T-14', '02 05:00');
    fill(book, 'T-14', '09 05:30', 500);
    fill(book, 'T-14', '11 05:30', 500);
    const fills = openSeason(book.records).batch(idOf('T-14'))?.fills;
    expect(fills?.map((each) => each.disinfectant)).toEqual(['chlorine', 'chloramine']);
    expect(fills?.map((each) => each.shareOfContent)).toEqual([1, 0.5]);
  });
});

describe('the height above the sea', () => {
  // 1 ft = 0.3048 m exactly (international foot, 1959): 3,000 ft are 914.4 m.
  it('is that of the operation, in metres; null where nobody wrote it down', () => {
    const book = farm();
    expect(openSeason(book.records).elevationM).toBeNull();
    const described = { name: 'Quillfen', timeZone: 'America/New_York', elevation: { value: 3000, unit: '[ft_i]' } };
    book.any('operation.described', '03 08:00', described);
    expect(openSeason(book.records).elevationM).toBeCloseTo(914.4, 9);
  });
});

describe('what a record changes', () => {
  const opened = () => {
    const book = farm();
    open(book, 'T-14', '02 05:00');
    fill(book, 'T-14', '02 05:30', 500);
    const season = openSeason();
    season.add(book.records);
    const changedBy = (write: () => unknown) => {
      const before = book.records.length;
      write();
      return [...season.add(book.records.slice(before)).batches];
    };
    return { book, changedBy };
  };

  it('is no batch where its tank was cleaned, its water tested or a paper about its water filed', () => {
    const { book, changedBy } = opened();
    const sourceId = idOf('city water');
    const cleaned = { vesselId: idOf('tote'), method: 'hosed out', rinsed: true };
    expect(changedBy(() => book.write('vessel.cleaned', '03 08:00', cleaned))).toEqual([]);
    const tested = { sourceId, sampledAt: '2026-06-03T08:00:00-04:00', results: [] };
    expect(changedBy(() => book.write('source.tested', '03 09:00', tested))).toEqual([]);
    const filed = { sourceId, covers: 'utilityReport', from: '2026-01-01' } as const;
    expect(changedBy(() => book.write('source.documented', '03 10:00', filed))).toEqual([]);
  });

  it('is each batch that was filled from a water whose disinfectant changed', () => {
    const { book, changedBy } = opened();
    const revised = { sourceId: idOf('city water'), disinfectant: 'chloramine' } as const;
    expect(changedBy(() => book.write('source.revised', '01 08:00', revised))).toEqual([idOf('T-14')]);
  });
});

describe('same ground', () => {
  it('is a field with what it lies in and what lies in it, not its sister beds', () => {
    const book = farm();
    field(book, 'bed 3', 'North 4');
    field(book, 'bed 4', 'North 4');
    field(book, 'row 1', 'bed 3');
    const season = openSeason(book.records);
    const ground = (name: string) => [...season.sameGround(idOf(name))].sort();
    const ids = (...names: string[]) => names.map(idOf).sort();
    expect(ground('bed 3')).toEqual(ids('bed 3', 'North 4', 'row 1'));
    expect(ground('North 4')).toEqual(ids('North 4', 'bed 3', 'bed 4', 'row 1'));
  });

  it('a ring of fields, each in the other, comes to its end', () => {
    const book = farm();
    field(book, 'a', 'b');
    field(book, 'b', 'a');
    expect([...openSeason(book.records).sameGround(idOf('a'))].sort()).toEqual([idOf('a'), idOf('b')].sort());
  });
});

describe('a lot', () => {
  it('moves with each use, in its own unit: 10 lb as 160 oz, half a bucket of 14.5 lb, 5 lb thrown away', () => {
    const book = farm();
    book.write('measure.registered', '01 08:00', {
      measureId: idOf('bucket'),
      name: 'green bucket, level',
      equals: pounds(14.5),
      weighedOn: '2026-04-01',
    });
    const use = (when: string, quantity: object) =>
      book.any('batch.ingredientAdded', when, { batchId: idOf('T-14'), lotId: idOf('compost'), quantity });
    use('2026-06-02T06:00:00Z', { value: 160, unit: '[oz_av]' });
    use('2026-06-02T07:00:00Z', { value: 0.5, unit: '{measure}', measureId: idOf('bucket') });
    use('2026-06-02T08:00:00Z', { value: 3, unit: 'L' });
    book.write('lot.disposed', '03 08:00', { lotId: idOf('compost'), quantity: pounds(5), reason: 'wet' });
    const movements = openSeason(book.records).lot(idOf('compost'))?.movements;
    expect(movements?.map((each) => [each.kind, each.amount?.toFixed() ?? null])).toEqual([
      ['received', '100'],
      ['batch', '10'],
      ['batch', '7.25'],
      ['batch', null],
      ['disposed', '5'],
    ]);
  });

  it('mixed into a sprayer left the lot when spraying began, not when the spraying was written down', () => {
    const book = farm();
    const made = book.write('application.made', '03 09:00', {
      ...{ applicationId: idOf('A-1'), code: 'A-1', targets: [{ fieldId: idOf('North 4') }], draws: [] },
      tankMix: [{ lotId: idOf('molasses'), quantity: pounds(3) }],
      ...{ startedAt: '2026-06-03T06:00:00Z', finishedAt: '2026-06-03T09:00:00Z' },
      ...{ method: 'soilDrench', applicator: idOf('Ines') },
    });
    const [before, between, after] = ['03 05:00', '03 07:00', '03 10:00'].map((when) =>
      book.write('lot.disposed', when, { lotId: idOf('molasses'), quantity: pounds(1), reason: 'spilled' }),
    );
    const movements = openSeason(book.records.toReversed()).lot(idOf('molasses'))?.movements.slice(1);
    expect(movements?.map(({ recordId }) => recordId)).toEqual(
      [before, made, between, after].map((record) => record?.id),
    );
    expect(movements?.[1]?.at.at).toBe(at('2026-06-03T06:00:00Z'));
  });

  it('used before it was recorded counts from when it is: its addition falls into place', () => {
    const book = farm();
    const season = openSeason(book.records);
    const added = put(book, 'T-14', '02 06:00', 'late compost', 10);
    season.add([added]);
    expect(season.batch(idOf('T-14'))?.ingredients[0]?.amount).toBeNull();
    expect([...season.add([lot(book, 'late compost', 40)]).batches]).toEqual([idOf('T-14')]);
    expect(season.batch(idOf('T-14'))?.ingredients[0]?.amount?.toFixed()).toBe('10');
  });
});

describe('what an added record touches', () => {
  function season() {
    const book = farm();
    brew(book);
    brew(book, 'T-15');
    return { book, season: openSeason(book.records) };
  }

  it('a reading touches its own batch, and a record known already none', () => {
    const { book, season: here } = season();
    const reading = book.write('batch.oxygenMeasured', '02 12:00', {
      batchId: idOf('T-15'),
      dissolvedOxygen: { value: 7.4, unit: 'mg/L' },
    });
    expect([...here.add([reading]).batches]).toEqual([idOf('T-15')]);
    expect([...here.add([reading]).batches]).toEqual([]);
  });

  it('an amendment from one tank to the other touches both', () => {
    const { book, season: here } = season();
    const added = put(book, 'T-14', '02 07:00', 'molasses', 1);
    here.add([added]);
    const amendment = book.amend(added, '02 07:05', { ...added.data, batchId: idOf('T-15') });
    expect([...here.add([amendment]).batches].sort()).toEqual([idOf('T-14'), idOf('T-15')].sort());
    expect(here.onceAbout(idOf('T-14')).map((record) => record.id)).toEqual([added.id]);
  });

  it('a planting written down later stands on the ground of an application, and touches no batch', () => {
    const { book, season: here } = season();
    here.add([apply(book, 'A-1', '03 06:00', '03 07:00', { loads: [{ batch: 'T-14', litres: 300 }] })]);
    const plantings = () => here.applicationsOf(idOf('T-14')).map(({ targets }) => targets[0]?.plantingIds);
    expect(plantings()).toEqual([[]]);
    const planted = book.write('planting.started', '01 09:00', {
      ...{ plantingId: idOf('lettuce'), fieldId: idOf('North 4'), crop: 'lettuce', ediblePart: 'leaf' },
    });
    expect([...here.add([planted]).batches]).toEqual([]);
    expect(plantings()).toEqual([[idOf('lettuce')]]);
  });

  it('a changed material touches the batches that used it, another lot’s recall none', () => {
    const { book, season: here } = season();
    const revised = book.write('material.revised', '01 09:00', {
      materialId: idOf('material compost'),
      animalOrigin: 'yes',
    });
    expect([...here.add([revised]).batches].sort()).toEqual([idOf('T-14'), idOf('T-15')].sort());
    const recall = book.write('lot.recalled', '03 09:00', { lotId: idOf('molasses'), reason: 'supplier notice' });
    expect([...here.add([recall]).batches]).toEqual([]);
  });
});

describe('the season as of then', () => {
  function spring() {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 300);
    airOff(book, 'T-14', '03 20:00');
    return book;
  }

  it('leaves out what happened later, and keeps what registrations say for all time', () => {
    const book = spring();
    const season = seasonAt(book.records, { at: at('2026-06-03T05:00:00Z') });
    expect(season.batch(idOf('T-14'))?.phase).toBe('brewing');
    expect(season.batch(idOf('T-14'))?.draws).toEqual([]);
    expect(season.material(idOf('material compost'))).toBeDefined();
    expect(seasonAt(book.records, { at: at('2026-05-01T00:00:00Z') }).material(idOf('material compost'))).toBeDefined();
  });

  it('a correction made later still tells what was true then', () => {
    const book = spring();
    const [added] = book.records.filter((record) => record.type === 'batch.ingredientAdded');
    if (added === undefined) throw new Error('nothing added');
    book.amend(added, '05 08:00', { ...added.data, quantity: pounds(12) });
    const then = seasonAt(book.records, { at: at('2026-06-03T05:00:00Z') });
    expect(then.batch(idOf('T-14'))?.ingredients[0]?.quantity).toEqual(pounds(12));
    const known = seasonAt(book.records, { knownAt: at('2026-06-04T00:00:00Z') });
    expect(known.batch(idOf('T-14'))?.ingredients[0]?.quantity).toEqual(pounds(10));
  });

  it('leaves out what was recorded later, whenever it happened', () => {
    const book = spring();
    const late = put(book, 'T-14', '02 06:05', 'molasses', 1);
    const before = seasonAt(book.records, { asOfSeq: late.seq - 1 });
    expect(before.batch(idOf('T-14'))?.ingredients).toHaveLength(1);
    expect(seasonAt(book.records, { asOfSeq: late.seq }).batch(idOf('T-14'))?.ingredients).toHaveLength(2);
  });
});

describe('an application', () => {
  it('reaches the plantings that stand on its ground at its start, from the day they were planted', () => {
    const book = farm();
    const plant = (name: string, plantedOn: string) =>
      book.write('planting.started', '05 08:00', {
        plantingId: idOf(name),
        fieldId: idOf('North 4'),
        crop: name,
        ediblePart: 'leaf',
        plantedOn,
      });
    plant('old orchard', '2019');
    plant('carrots', '2026-06-03');
    plant('beets', '2026-06-04');
    apply(book, 'A-1', '03 07:00', '03 08:00', { loads: [{ batch: 'T-14', litres: 100 }] });
    const [target] = openSeason(book.records).application(idOf('A-1'))?.targets ?? [];
    expect([...(target?.plantingIds ?? [])].sort()).toEqual([idOf('old orchard'), idOf('carrots')].sort());
  });

  it('reaches a planting that was ended in the minute when spraying began, not one ended a minute before', () => {
    const book = farm();
    for (const [name, end] of [
      ['radishes', '03 06:59'],
      ['spinach', '03 07:00'],
      ['lettuce', '03 07:01'],
    ] as const) {
      book.write('planting.started', '01 09:00', {
        ...{
          plantingId: idOf(name),
          fieldId: idOf('North 4'),
          crop: name,
          ediblePart: 'leaf',
          plantedOn: '2026-05-01',
        },
      });
      book.write('planting.ended', end, { plantingId: idOf(name) });
    }
    apply(book, 'A-1', '03 07:00', '03 08:00', { loads: [{ batch: 'T-14', litres: 100 }] });
    const [target] = openSeason(book.records).application(idOf('A-1'))?.targets ?? [];
    expect([...(target?.plantingIds ?? [])].sort()).toEqual([idOf('spinach'), idOf('lettuce')].sort());
  });

  it('sprayed in two goes, the draw is held until the later end', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 300);
    apply(book, 'A-1', '03 07:00', '03 08:00', { draws: ['load 1'] });
    apply(book, 'A-2', '03 09:00', '03 10:00', { draws: ['load 1'] });
    const [load] = openSeason(book.records).batch(idOf('T-14'))?.draws ?? [];
    expect(load?.applicationIds).toEqual([idOf('A-1'), idOf('A-2')]);
    expect(load?.holdHours?.value).toBe(4);
  });
});

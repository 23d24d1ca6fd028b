import { describe, expect, it } from '@jest/globals';
import { gallons, idOf, litresOf, type Book } from '../testing/book.ts';
import { apply, brew, draw, endDraw, farm, field, fill, lot, open } from '../testing/brew.ts';
import { openSeason } from './season.ts';

type Target = NonNullable<Parameters<typeof apply>[4]['on']>[number];
const acres = (value: number) => ({ value, unit: '[acr_us]' });

describe('how a load is shared out among its targets', () => {
  const shared = (...on: Target[]) => {
    const book = farm();
    for (const code of ['bed 3', 'bed 4']) field(book, code, 'North 4');
    brew(book);
    apply(book, 'A-1', '03 06:00', '03 07:00', { loads: [{ batch: 'T-14', litres: 900 }], on });
    const targets = openSeason(book.records).application(idOf('A-1'))?.targets ?? [];
    return [targets[0]?.splitBy, ...targets.map(({ share }) => share.toNumber())];
  };
  const [third, fourth] = [{ fieldId: idOf('bed 3') }, { fieldId: idOf('bed 4') }];

  it('by their volumes, where every target has one: 30 and 10 gal', () => {
    const volumes = [
      { ...third, volume: gallons(30), area: acres(1) },
      { ...fourth, volume: gallons(10), area: acres(1) },
    ];
    expect(shared(...volumes)).toEqual(['volume', 0.75, 0.25]);
  });
  it('else by their areas: 1 and 4 acres', () => {
    expect(shared({ ...third, area: acres(1) }, { ...fourth, area: acres(4) })).toEqual(['area', 0.2, 0.8]);
    expect(shared({ ...third, area: acres(1), volume: gallons(30) }, { ...fourth, area: acres(4) })).toEqual([
      'area',
      0.2,
      0.8,
    ]);
  });
  it('else equally: where one target lacks its area, or all areas are nothing', () => {
    expect(shared({ ...third, area: acres(1) }, fourth)).toEqual(['equal', 0.5, 0.5]);
    expect(shared({ ...third, area: acres(0) }, { ...fourth, area: acres(0) })).toEqual(['equal', 0.5, 0.5]);
    expect(shared(third, fourth)).toEqual(['equal', 0.5, 0.5]);
  });
});

describe('the ground of a target', () => {
  it('is the area written beside it, in m² (1 ha = 10,000), and unknown where none is', () => {
    const book = farm();
    for (const code of ['bed 3', 'bed 4', 'bed 5']) field(book, code, 'North 4');
    brew(book);
    const on = [
      { fieldId: idOf('bed 3'), area: { value: 2.5, unit: 'har' } },
      { fieldId: idOf('bed 4') },
      { fieldId: idOf('bed 5'), area: { value: 0, unit: 'har' } },
    ];
    apply(book, 'A-1', '03 06:00', '03 07:00', { loads: [{ batch: 'T-14', litres: 900 }], on });
    const targets = openSeason(book.records).application(idOf('A-1'))?.targets;
    expect(targets?.map(({ areaM2 }) => areaM2)).toEqual([25_000, null, 0]);
  });
});

describe('what a batch names and nobody described', () => {
  it('is missing while a record names it, and not any more once that is struck', () => {
    const book = farm();
    brew(book);
    const fill = book.write('batch.filled', '02 05:40', {
      batchId: idOf('T-14'),
      sourceId: idOf('creek'),
      volume: gallons(10),
    });
    const missing = () =>
      openSeason(book.records)
        .batch(idOf('T-14'))
        ?.missing.map(({ kind, id }) => [kind, id]);
    expect(missing()).toContainEqual(['source', idOf('creek')]);
    book.strike(fill, '02 09:00');
    expect(missing()).not.toContainEqual(['source', idOf('creek')]);
  });

  const batchId = idOf('T-14');
  const drawn = (book: Book) =>
    book.write('batch.drawn', '03 06:00', { drawId: idOf('D-1'), batchId, volume: litresOf(100), into: idOf('it') });
  const sprayer = { equipmentId: idOf('it'), code: 'Sprayer 1', kind: 'sprayer' } as const;
  const nurseTank = {
    ...{ vesselId: idOf('it'), code: 'Nurse tank', totalVolume: litresOf(400), workingVolume: litresOf(380) },
    previousContents: 'none',
  } as const;
  const photo = {
    ...{ documentId: idOf('it'), title: 'Foam', mediaType: 'image/jpeg', byteLength: 9, sha256: 'a'.repeat(64) },
    about: [],
  };
  const pail = { measureId: idOf('it'), name: 'white pail', equals: litresOf(20), weighedOn: '2026-05-01' };
  it.each<[string, string, (book: Book) => unknown, (book: Book) => unknown]>([
    [
      'the person who put the air on',
      'person',
      (book) => book.write('batch.airStarted', '02 05:36', { batchId }, { performedBy: idOf('it') }),
      (book) => book.write('person.registered', '04 08:00', { personId: idOf('it'), personal: { name: 'Ruth' } }),
    ],
    [
      'a photograph of the foam',
      'document',
      (book) => book.write('batch.checked', '02 12:00', { batchId, foam: 'some', documentIds: [idOf('it')] }),
      (book) => book.write('document.attached', '04 08:00', photo),
    ],
    [
      'the pail it was filled with',
      'measure',
      (book) =>
        book.write('batch.filled', '02 05:40', {
          ...{ batchId, sourceId: idOf('city water') },
          volume: { value: 2, unit: '{measure}', measureId: idOf('it') },
        }),
      (book) => book.write('measure.registered', '04 08:00', pail),
    ],
    ['the sprayer it went into', 'container', drawn, (book) => book.write('equipment.registered', '04 08:00', sprayer)],
    ['the tank it went into', 'container', drawn, (book) => book.write('vessel.registered', '04 08:00', nurseTank)],
    [
      'the meter, though a photograph of it came first',
      'instrument',
      (book) => {
        book.write('document.attached', '02 07:00', {
          ...photo,
          documentId: idOf('photo'),
          about: [batchId, idOf('it')],
        });
        const dissolvedOxygen = { value: 7, unit: 'mg/L' };
        book.write('batch.oxygenMeasured', '02 17:00', { batchId, dissolvedOxygen, instrumentId: idOf('it') });
      },
      (book) =>
        book.write('instrument.registered', '04 08:00', {
          instrumentId: idOf('it'),
          code: 'DO-1',
          kind: 'oxygen meter',
          measures: 'dissolvedOxygen',
        }),
    ],
  ])('%s is missing until it is described', (_, kind, name, describe) => {
    const book = farm();
    brew(book);
    name(book);
    const missing = () =>
      openSeason(book.records)
        .batch(batchId)
        ?.missing.map((each) => [each.kind, each.id]);
    expect(missing()).toEqual([[kind, idOf('it')]]);
    describe(book);
    expect(missing()).toEqual([]);
  });
});

describe('an application', () => {
  it('described twice is what the later record says, and names the earlier one as its rival', () => {
    const book = farm();
    brew(book);
    const [first, second] = [
      apply(book, 'A-1', '03 06:00', '03 07:00', { loads: [{ batch: 'T-14', litres: 300 }] }),
      apply(book, 'A-1', '03 06:00', '03 08:00', { loads: [{ batch: 'T-14', litres: 400 }] }),
    ];
    apply(book, 'A-2', '03 09:00', '03 10:00', { loads: [{ batch: 'T-14', litres: 100 }] });
    const season = openSeason(book.records.toReversed());
    expect(season.application(idOf('A-1'))).toMatchObject({ record: { id: second.id }, rivals: [first.id] });
    expect(season.application(idOf('A-2'))?.rivals).toEqual([]);
  });
  it('that nobody recorded is none', () => {
    expect(openSeason(farm().records).application(idOf('A-1'))).toBeUndefined();
  });
});

describe('a batch of which only the tea carried over into it is known', () => {
  it('is a batch, and the one it came from keeps its own name', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'D-1', 100);
    endDraw(book, '03 07:00', 'D-1', 100, 'carriedOver', 'T-15');
    const season = openSeason(book.records);
    const [from, into] = [season.batch(idOf('T-14')), season.batch(idOf('T-15'))];
    expect([from?.id, into?.id, into?.volume.carriedInL.toFixed()]).toEqual([idOf('T-14'), idOf('T-15'), '100']);
  });
});

describe('a batch described several times', () => {
  it('is what the last opening says, and names the earlier ones as its rivals, receipts of tea too', () => {
    const book = farm();
    const opened = ['02 05:00', '02 05:10', '02 05:20'].map((at) => open(book, 'T-14', at));
    const received = ['02 06:00', '02 06:10', '02 06:20'].map((at) =>
      book.write('tea.received', at, {
        ...{ batchId: idOf('T-14'), code: 'N-7', volume: litresOf(200), from: { name: 'the farm next door' } },
      }),
    );
    const found = openSeason(book.records.toReversed()).batch(idOf('T-14'));
    expect([found?.opened?.id, found?.receivedTea?.id]).toEqual([opened[2]?.id, received[2]?.id]);
    const earlier = [...opened.slice(0, 2), ...received.slice(0, 2)];
    expect(found?.rivals).toEqual(earlier.map(({ id }) => id));
  });
});

describe('a lot described twice', () => {
  it('is what the later record says, and names the earlier one as its rival', () => {
    const book = farm();
    const [first] = [lot(book, 'kelp', 40, '02 08:00'), lot(book, 'kelp', 50, '03 08:00')];
    const found = openSeason(book.records.toReversed()).lot(idOf('kelp'));
    expect([found?.quantity.value, found?.rivals]).toEqual([50, [first?.id]]);
  });
});

describe('a batch that nobody opened', () => {
  it('is itself missing, once, and what it does not lack is not named', () => {
    const book = farm();
    book.write('batch.filled', '02 05:40', {
      batchId: idOf('T-20'),
      sourceId: idOf('city water'),
      volume: gallons(10),
    });
    expect(openSeason(book.records).batch(idOf('T-20'))?.missing).toEqual([
      { kind: 'batch', id: idOf('T-20'), recordId: book.records.at(-1)?.id },
    ]);
  });

  it('goes by the first eight digits of its id', () => {
    const book = farm();
    fill(book, 'T-20', '02 05:40', 100);
    expect(openSeason(book.records).batch(idOf('T-20'))?.code).toBe(idOf('T-20').slice(0, 8));
  });

  it('is missing in the batch whose tea was carried over into it, until it is opened or received', () => {
    const missing = (describe: (book: Book) => unknown) => {
      const book = farm();
      brew(book);
      draw(book, 'T-14', '03 06:00', 'D-1', 100);
      endDraw(book, '03 07:00', 'D-1', 100, 'carriedOver', 'T-20');
      describe(book);
      return openSeason(book.records)
        .batch(idOf('T-14'))
        ?.missing.map(({ kind, id }) => [kind, id]);
    };
    const received = {
      batchId: idOf('T-20'),
      code: 'N-7',
      volume: litresOf(200),
      from: { name: 'the farm next door' },
    };
    expect(missing(() => undefined)).toEqual([['batch', idOf('T-20')]]);
    expect(missing((book) => open(book, 'T-20', '03 05:00'))).toEqual([]);
    expect(missing((book) => book.write('tea.received', '03 05:00', received))).toEqual([]);
  });
});

describe('a draw', () => {
  it('belongs to the applications that name it, not to one that sprayed another draw of the batch', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'D-1', 300);
    draw(book, 'T-14', '03 06:10', 'D-2', 300);
    apply(book, 'A-1', '03 07:00', '03 08:00', { draws: ['D-1'] });
    apply(book, 'A-2', '03 09:00', '03 10:00', { draws: ['D-2'] });
    const season = openSeason(book.records);
    expect(season.applicationsOf(idOf('T-14')).map(({ id }) => id)).toEqual([idOf('A-1'), idOf('A-2')]);
    const draws = season.batch(idOf('T-14'))?.draws ?? [];
    expect(draws.map(({ id, applicationId }) => [id, applicationId])).toEqual([
      [idOf('D-1'), idOf('A-1')],
      [idOf('D-2'), idOf('A-2')],
    ]);
  });
});

describe('a person', () => {
  it('erased is erased by the last record that says so', () => {
    const book = farm();
    book.write('person.registered', '01 08:00', { personId: idOf('Ruth'), personal: { name: 'Ruth' } });
    expect(openSeason(book.records).person(idOf('Ruth'))?.erased).toBeUndefined();
    const erasure = book.any('person.erased', '20 08:00', { personId: idOf('Ruth'), reason: 'asked for it' });
    expect(openSeason(book.records).person(idOf('Ruth'))?.erased?.id).toBe(erasure.id);
  });
});

describe('a harvest described twice', () => {
  it('is what the later record says, and names the earlier one as its rival', () => {
    const book = farm();
    const made = (at: string, pounds: number) =>
      book.write('harvest.made', at, {
        harvestId: idOf('H-1'),
        code: 'H-1',
        fieldId: idOf('North 4'),
        quantity: { value: pounds, unit: '[lb_av]' },
        soldAs: 'organic',
      });
    const [first, second] = [made('20 08:00', 100), made('21 08:00', 120)];
    const harvest = openSeason(book.records.toReversed()).harvest(idOf('H-1'));
    expect(harvest?.record.id).toBe(second.id);
    expect(harvest?.rivals).toEqual([first.id]);
  });
});

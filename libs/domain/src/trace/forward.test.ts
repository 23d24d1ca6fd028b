import { describe, expect, it } from '@jest/globals';
import { openSeason } from '../fold/season.ts';
import { Book, idOf, litresOf, pounds } from '../testing/book.ts';
import { apply, brew, draw, endDraw, farm, field, fill, lot, material, open, put } from '../testing/brew.ts';
import { codeIn, harvest, planting, quantities, stepsWithAmounts, traced } from '../testing/traced.ts';
import { edgesOf } from './edges.ts';
import type { TraceEdge, TraceRoot } from './types.ts';

/** A trace forward as plain words: places with amounts, ends, steps, and what is open. */
function on(book: Book, kind: TraceRoot['kind'], name: string) {
  const found = traced(book, kind, name);
  const code = codeIn(found);
  const { lots, batches, fields, plantings, harvests, shipments } = found.reached;
  return {
    lots: quantities(lots),
    batches: quantities(batches),
    fields: quantities(fields),
    plantings: quantities(plantings),
    harvests: harvests.map((each) => each.code),
    shipments: shipments.map((each) => each.code),
    whole: found.whole,
    ends: found.ends.map(({ kind: end, at, quantity, why }) => [end, code(at.id), quantity?.value ?? null, why]),
    steps: stepsWithAmounts(found),
    open: found.unresolved.map(({ id, why, quantity }) =>
      [code(id), why, ...(quantity === undefined ? [] : [quantity.value])].join(': '),
    ),
  };
}
function pile(book: Book, name: string, method: 'windrow' | 'vermicompost', lotName: string, amount: number) {
  book.write('pile.started', '02 08:00', {
    ...{ pileId: idOf(name), code: name, method, inputs: [{ lotId: idOf(lotName), quantity: pounds(amount) }] },
  });
}

describe('what grew where it went', () => {
  it('one planting on the field gets all that came there, of two neither is told how much', () => {
    const sprayed = (...crops: string[]) => {
      const book = farm();
      for (const crop of crops) planting(book, crop, 'North 4');
      brew(book);
      apply(book, 'A-1', '03 07:00', '03 08:00', { loads: [{ batch: 'T-14', litres: 500 }] });
      return on(book, 'lot', 'compost');
    };
    expect(sprayed('carrots').plantings).toEqual({ carrots: 5 });
    expect(sprayed('carrots').steps).toContain('A-1 → carrots 5 [lb_av]');
    expect(sprayed('carrots', 'beets').plantings).toEqual({ carrots: null, beets: null });
    expect(sprayed('carrots', 'beets').steps).toContain('A-1 → carrots');
    expect(sprayed('carrots', 'beets').fields).toEqual({ 'North 4': 5 });
  });
  it('bare ground, a harvest without a planting, a field nobody described: each is said', () => {
    const book = farm();
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', { loads: [{ batch: 'T-14', litres: 500 }] });
    apply(book, 'A-2', '03 09:00', '03 10:00', {
      loads: [{ batch: 'T-14', litres: 100 }],
      on: [{ fieldId: idOf('nowhere') }],
    });
    harvest(book, 'H', 'North 4', '10 08:00');
    const { open: said, harvests } = on(book, 'lot', 'compost');
    expect(harvests).toEqual(['H']);
    expect(said).toContain(
      'A-1: names no planting and none stood there: every later harvest of that ground counts as reached',
    );
    expect(said).toContain('H: the harvest names no planting: it counts as reached by its ground');
    expect(said).toContainEqual(expect.stringContaining('no record describes this field'));
    expect(said.filter((each) => each.includes('describes this field'))).toHaveLength(1);
  });
  it('of a planting that stands there nothing is open', () => {
    const book = farm();
    planting(book, 'carrots', 'North 4');
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', { loads: [{ batch: 'T-14', litres: 500 }] });
    harvest(book, 'C', 'North 4', '10 08:00', 'carrots');
    expect(on(book, 'lot', 'compost')).toMatchObject({ harvests: ['C'], open: [] });
    expect(on(book, 'lot', 'compost').steps).toContain('carrots → C');
  });
});

describe('transplants', () => {
  it.each([
    ['2026-06-02', 'the day before', ['seedlings']],
    ['2026-06-03', 'the day of the spraying', ['seedlings', 'carrots']],
    ['2026-06-20', 'later', ['seedlings', 'carrots']],
  ])('planted out on %s, %s: reached are %j', (plantedOn, _when, reached) => {
    const book = farm();
    field(book, 'tray');
    planting(book, 'seedlings', 'tray');
    planting(book, 'carrots', 'North 4', plantedOn, 'seedlings');
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 500 }],
      on: [{ fieldId: idOf('tray') }],
    });
    expect(Object.keys(on(book, 'lot', 'compost').plantings)).toEqual(reached);
  });

  it('what is open is said once, however often it was reached', () => {
    const book = farm();
    brew(book);
    for (const [name, at] of [
      ['A-1', '03 07:00'],
      ['A-2', '04 07:00'],
    ] as const)
      apply(book, name, at, at, { loads: [{ batch: 'T-14', litres: 100 }], on: [{ fieldId: idOf('South 9') }] });
    const unknown = on(book, 'lot', 'compost').open.filter((each) => each.endsWith('no record describes this field'));
    expect(unknown).toHaveLength(1);
  });
});

describe('where the rest is', () => {
  it('a load that nobody applied, with what was put back counted in the tank: 0.5 lb in the load', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 100);
    endDraw(book, '03 07:00', 'load 1', 50, 'putBack');
    const found = on(book, 'lot', 'compost');
    expect(found.ends).toEqual([
      ['leftInLoad', 'T-14', 0.5, 'drawn; no application of it is recorded'],
      ['leftInTank', 'T-14', 9.5, 'still in the tank'],
      ['leftInStock', 'compost 26-1', 90, 'still in stock by the books'],
    ]);
    expect(found.steps).toContain('T-14 → T-14 0.5 [lb_av]');
    // The tank had it all along: 10 lb came into the batch, not 10.5.
    expect(found.batches).toEqual({ 'T-14': 10 });
    expect(on(book, 'batch', 'T-14').batches).toEqual({});
  });
  it('carried over into nobody knows which batch, and dumped: an end each', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 100);
    const carried = endDraw(book, '03 07:00', 'load 1', 60, 'carriedOver');
    const dumped = endDraw(book, '03 07:10', 'load 1', 40, 'dumped');
    const recordIds = traced(book, 'lot', 'compost').ends.map((end) => end.recordId);
    expect(recordIds.slice(0, 2)).toEqual([carried.id, dumped.id]);
    expect(on(book, 'lot', 'compost').ends.slice(0, 2)).toEqual([
      ['carriedOff', 'T-14', 0.6, 'carried over, into which batch was not written'],
      ['dumped', 'T-14', 0.4, 'dumped from the load'],
    ]);
  });
  it.each([
    ['carriedOver', 'T-15', []],
    ['putBack', 'T-14', []],
    ['dumped', null, [['dumped', 'T-14', 1, 'dumped from the load']]],
  ] as const)('a rest that was %s went into %s, with T-15 written beside it', (fate, into, dumped) => {
    const book = farm();
    brew(book);
    open(book, 'T-15', '03 05:00');
    draw(book, 'T-14', '03 06:00', 'load 1', 100);
    endDraw(book, '03 07:00', 'load 1', 100, fate, 'T-15');
    const batchesAfter = (edges: readonly TraceEdge[]) =>
      edges.filter(({ from, to }) => from.kind === 'draw' && to.kind === 'batch').map(({ to }) => to.id);
    const expected = into === null ? [] : [idOf(into)];
    expect(batchesAfter(traced(book, 'lot', 'compost').edges)).toEqual(expected);
    const edges = (batch: string) => batchesAfter(edgesOf(openSeason(book.records), idOf(batch)));
    expect([edges('T-14'), edges('T-15')]).toEqual([expected, into === 'T-15' ? expected : []]);
    expect(on(book, 'lot', 'compost').ends.filter(([kind]) => kind === 'dumped')).toEqual(dumped);
    // The way back from the batch that was written says the same.
    const back = traced(book, 'batch', 'T-15', 'backward').reached.batches;
    expect(back.map(({ id }) => id)).toEqual(into === 'T-15' ? [idOf('T-14')] : []);
  });
  it('a closed batch keeps its rest; lost, disposed of and supplied are told apart', () => {
    const book = farm();
    brew(book);
    const lost = book.write('batch.lost', '02 20:00', {
      ...{ batchId: idOf('T-14'), volume: litresOf(100), cause: 'foam' },
    });
    const disposed = book.write('batch.disposed', '03 05:00', {
      ...{ batchId: idOf('T-14'), volume: litresOf(200), reason: 'sour', where: 'pasture' },
    });
    const supplied = book.write('tea.supplied', '03 06:00', {
      ...{ batchId: idOf('T-14'), volume: litresOf(300), to: { name: 'the orchard' }, statementGiven: 'yes' },
      sold: 'no',
    });
    const closed = book.write('batch.closed', '04 08:00', { batchId: idOf('T-14'), remainingVolume: litresOf(400) });
    // Each names the record that says so; what is still in stock is said by none.
    expect(traced(book, 'lot', 'compost').ends.map((end) => end.recordId)).toEqual([
      ...[lost, disposed, supplied, closed].map(({ id }) => id),
      undefined,
    ]);
    const found = on(book, 'lot', 'compost');
    expect(found.ends.slice(0, -1)).toEqual([
      ['lost', 'T-14', 1, 'lost from the tank'],
      ['disposed', 'T-14', 2, 'disposed from the tank'],
      ['supplied', 'T-14', 3, 'supplied to the orchard'],
      ['leftInTank', 'T-14', 4, 'left in the tank when the batch was closed'],
    ]);
    expect(found.open).toHaveLength(1);
    expect(found.open[0]).toContain('tea supplied to the orchard: where they used it is in their records');
  });
  it('in a pile that is not finished, and in the lot finished of it', () => {
    const book = farm();
    material(book, 'straw', 'other', 'no');
    lot(book, 'straw', 50);
    pile(book, 'bin', 'vermicompost', 'straw', 40);
    expect(on(book, 'lot', 'straw').ends).toEqual([
      ['leftInPile', 'bin', 40, 'still in the pile'],
      ['leftInStock', 'straw 26-1', 10, 'still in stock by the books'],
    ]);
    book.write('pile.finished', '20 08:00', {
      ...{ pileId: idOf('bin'), lotId: idOf('own'), code: 'own', materialId: idOf('material compost') },
      quantity: pounds(30),
    });
    const found = on(book, 'lot', 'straw');
    expect(found.ends).toEqual([
      ['leftInStock', 'own', 40, 'still in stock'],
      ['leftInStock', 'straw 26-1', 10, 'still in stock by the books'],
    ]);
    expect(found.steps).toEqual(['straw 26-1 → bin 40 [lb_av]', 'bin → own 40 [lb_av]']);
  });
  it('lots of one pile weighed in pounds and in litres are shared out equally, and it is said', () => {
    const book = farm();
    material(book, 'straw', 'other', 'no');
    lot(book, 'straw', 50);
    pile(book, 'P', 'windrow', 'straw', 40);
    for (const [name, at, quantity] of [
      ['first', '20 08:00', pounds(30)],
      ['second', '21 08:00', litresOf(10)],
    ] as const)
      book.write('pile.finished', at, {
        ...{ pileId: idOf('P'), lotId: idOf(name), code: name, materialId: idOf('material compost'), quantity },
      });
    const found = on(book, 'lot', 'straw');
    expect(found.lots).toEqual({ first: 20, second: 20 });
    expect(found.open).toEqual(['P: its lots were weighed in units that cannot be compared: shared out equally']);
  });
  it('more used than was received: the books say so', () => {
    const book = farm();
    brew(book);
    put(book, 'T-14', '02 07:00', 'compost', 100);
    const found = on(book, 'lot', 'compost');
    expect(found.open).toEqual(['compost 26-1: more of it was used than was received']);
    expect(found.ends).toEqual([['leftInTank', 'T-14', 110, 'still in the tank']]);
  });
  it('just as much as was received: nothing is left, and nothing is open', () => {
    const book = farm();
    brew(book);
    put(book, 'T-14', '02 07:00', 'compost', 90);
    expect(on(book, 'lot', 'compost')).toMatchObject({
      ends: [['leftInTank', 'T-14', 100, 'still in the tank']],
      open: [],
      whole: pounds(100),
    });
  });
  it('an amount in buckets nobody weighed: the batch is named, and why there is no figure', () => {
    const book = farm();
    brew(book);
    const quantity = { value: 2, unit: '{measure}', measureId: idOf('bucket') };
    book.any('batch.ingredientAdded', '02 06:10', { batchId: idOf('T-14'), lotId: idOf('molasses'), quantity });
    const found = on(book, 'lot', 'molasses');
    expect(found.batches).toEqual({ 'T-14': null });
    expect(found.open.map((each) => each.replace(/^[^:]*: /, ''))).toEqual([
      'how much of the lot this was cannot be told in the lot’s unit',
    ]);
  });
  it('an application that names no target holds what it put out', () => {
    const book = farm();
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', { loads: [{ batch: 'T-14', litres: 500 }], on: [] });
    const found = on(book, 'lot', 'compost');
    expect(found.open).toEqual(['A-1: the application names no target: 5']);
    expect(found.fields).toEqual({});
  });
});

describe('a lot of which the receipt is still to come', () => {
  it('went into a pile, when it was begun and later; both are told without amounts', () => {
    const book = farm();
    pile(book, 'P', 'windrow', 'late straw', 40);
    pile(book, 'Q', 'windrow', 'compost', 10);
    book.write('pile.added', '03 08:00', { pileId: idOf('Q'), lotId: idOf('late straw'), quantity: pounds(4) });
    expect(
      on(book, 'lot', 'late straw')
        .steps.map((step) => step.replace(/^.* → /, ''))
        .sort(),
    ).toEqual(['P', 'Q']);
    // Of another lot in the same pile nothing of it is said.
    expect(on(book, 'lot', 'compost').steps).toEqual(['compost 26-1 → Q 10 [lb_av]']);
  });
  it('went as a neutralizer, and into a sprayer', () => {
    const book = farm();
    brew(book);
    book.write('batch.neutralizerAdded', '02 05:40', {
      ...{ batchId: idOf('T-14'), lotId: idOf('late vitamin C'), quantity: pounds(1) },
    });
    expect(Object.keys(on(book, 'lot', 'late vitamin C').batches)).toEqual(['T-14']);
    book.any('application.made', '04 08:00', {
      ...{ applicationId: idOf('A-2'), code: 'A-2', targets: [{ fieldId: idOf('North 4') }], draws: [] },
      tankMix: [{ lotId: idOf('late fish'), quantity: pounds(4) }],
      ...{ startedAt: '2026-06-04T07:00:00Z', finishedAt: '2026-06-04T08:00:00Z', method: 'foliar' },
      applicator: idOf('Ines'),
    });
    expect(on(book, 'lot', 'late fish').fields).toEqual({ 'North 4': null });
    expect(on(book, 'lot', 'late fish').open).toContainEqual(
      expect.stringContaining('no record describes this lot yet'),
    );
  });
});

describe('from the ground on', () => {
  const farmed = () => {
    const book = farm();
    field(book, 'bed 3', 'North 4');
    field(book, 'South 1');
    planting(book, 'carrots', 'bed 3');
    planting(book, 'kale', 'South 1');
    harvest(book, 'C', 'bed 3', '10 08:00', 'carrots');
    harvest(book, 'any', 'bed 3', '11 08:00');
    harvest(book, 'K', 'South 1', '12 08:00', 'kale');
    for (const [name, reference] of [
      ['C', 'BOL 118'],
      ['K', 'BOL 119'],
    ] as const)
      book.write('harvest.shipped', '13 08:00', {
        ...{ harvestId: idOf(name), quantity: pounds(1200), to: 'packing shed', reference },
      });
    return book;
  };
  it('a field: what grew on it and in its beds, what was cut there, where it was shipped', () => {
    const found = on(farmed(), 'field', 'North 4');
    expect(found).toMatchObject({ plantings: { carrots: null }, harvests: ['C', 'any'], shipments: ['BOL 118'] });
    expect(found.steps).toEqual(['North 4 → carrots', 'carrots → C', 'C → BOL 118', 'North 4 → any']);
    expect(found.open).toEqual(['any: the harvest names no planting: it counts as reached by its ground']);
  });
  it('a planting: its own harvests only; it does not come of itself', () => {
    const found = on(farmed(), 'planting', 'carrots');
    expect(found).toMatchObject({ plantings: {}, harvests: ['C'], shipments: ['BOL 118'], open: [] });
    expect(found.steps).toEqual(['carrots → C', 'C → BOL 118']);
  });
  it('a harvest: its own shipments', () => {
    expect(on(farmed(), 'harvest', 'C').steps).toEqual(['C → BOL 118']);
    expect(on(farmed(), 'harvest', 'K').shipments).toEqual(['BOL 119']);
    expect(on(farmed(), 'harvest', 'any')).toMatchObject({ shipments: [], steps: [] });
  });
});

describe('the tea of a batch', () => {
  it('received from elsewhere is followed in litres', () => {
    const book = farm();
    book.write('tea.received', '03 06:00', {
      ...{ batchId: idOf('N-7'), code: 'N-7', volume: litresOf(200), from: { name: 'the farm down the road' } },
    });
    apply(book, 'A-1', '03 07:00', '03 08:00', { loads: [{ batch: 'N-7', litres: 150 }] });
    const found = on(book, 'batch', 'N-7');
    expect(found).toMatchObject({ whole: litresOf(200), fields: { 'North 4': 150 } });
    expect(found.ends).toEqual([['leftInTank', 'N-7', 50, 'still in the tank']]);
  });
  it('sprayed together with tea of a batch nobody recorded: only what is known of is followed', () => {
    const book = farm();
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [
        { batch: 'T-14', litres: 100 },
        { batch: 'nobody wrote', litres: 100 },
      ],
    });
    expect(on(book, 'lot', 'compost').fields).toEqual({ 'North 4': 1 });
    expect(on(book, 'batch', 'T-14').fields).toEqual({ 'North 4': 100 });
  });
  it('of a tank nobody wrote a fill for is named where it went, without an amount', () => {
    const book = farm();
    open(book, 'T-14', '02 05:00');
    apply(book, 'A-1', '03 07:00', '03 08:00', { loads: [{ batch: 'T-14', litres: 150 }] });
    expect(on(book, 'batch', 'T-14')).toMatchObject({ fields: { 'North 4': null }, ends: [] });
    expect(on(book, 'batch', 'T-14').whole).toBeUndefined();
  });
  it('carried there and back is in both tanks: 100 of 1000 L into 900 L, of which 100 L come back with 10 of its own', () => {
    const book = farm();
    brew(book);
    open(book, 'T-15', '03 05:00');
    fill(book, 'T-15', '03 05:30', 900);
    draw(book, 'T-14', '03 06:00', 'there', 100);
    endDraw(book, '03 06:10', 'there', 100, 'carriedOver', 'T-15');
    draw(book, 'T-15', '03 07:00', 'back', 100);
    endDraw(book, '03 07:10', 'back', 100, 'carriedOver', 'T-14');
    const found = on(book, 'batch', 'T-14');
    expect(found.batches).toEqual({ 'T-15': 100 });
    // 90 L of the 100 L that came back were T-15's own, and are T-14's tea from then on.
    expect(found.whole).toEqual(litresOf(1090));
  });
});

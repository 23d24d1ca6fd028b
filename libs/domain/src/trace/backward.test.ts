import { describe, expect, it } from '@jest/globals';
import { Book, idOf, litresOf, pounds } from '../testing/book.ts';
import { apply, brew, draw, endDraw, farm, field, fill, lot, material, open, put } from '../testing/brew.ts';
import { codeIn, harvest, planting, quantities, stepsWithAmounts, traced } from '../testing/traced.ts';
import type { TraceRoot } from './types.ts';

/** A trace backward as plain words: what it names, with amounts, and its steps. */
function back(book: Book, kind: TraceRoot['kind'], name: string) {
  const found = traced(book, kind, name, 'backward');
  const code = codeIn(found);
  return {
    lots: quantities(found.reached.lots),
    batches: quantities(found.reached.batches),
    shares: found.reached.batches.map((each) => each.share),
    fields: found.reached.fields.map((each) => each.code).sort(),
    plantings: found.reached.plantings.map((each) => each.code).sort(),
    steps: stepsWithAmounts(found),
    open: found.unresolved.map((each) => `${code(each.id)}: ${each.why}`),
  };
}
const larger =
  'applied to the larger ground that this lies in: how much came here cannot be told, all of it is counted';

describe('back from a field', () => {
  it('400 of 1000 L, 3 to 1 on two fields: 300 L and 3 lb came to the first, a load drawn for it names both', () => {
    const book = farm();
    field(book, 'South 1');
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 400);
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      draws: ['load 1'],
      on: [
        { fieldId: idOf('North 4'), volume: litresOf(300) },
        { fieldId: idOf('South 1'), volume: litresOf(100) },
      ],
    });
    expect(back(book, 'field', 'North 4')).toMatchObject({
      lots: { 'compost 26-1': 3 },
      batches: { 'T-14': 300 },
      shares: [0.3],
      fields: ['North 4'],
      plantings: [],
      steps: [
        'A-1 → North 4 300 L',
        'T-14 · North 4 · South 1 → A-1 400 L',
        'T-14 → T-14 · North 4 · South 1 400 L',
        'compost 26-1 → T-14 10 [lb_av]',
      ],
      open: [],
    });
  });

  it('an application that names its planting leads back to the field alone; the planting is asked by itself', () => {
    const book = farm();
    planting(book, 'carrots', 'North 4');
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 400 }],
      on: [{ fieldId: idOf('North 4'), plantingId: idOf('carrots') }],
    });
    expect(back(book, 'field', 'North 4')).toMatchObject({ fields: ['North 4'], plantings: [] });
    expect(back(book, 'planting', 'carrots')).toMatchObject({ fields: ['North 4'], plantings: ['carrots'] });
  });

  it('a load is named by its batch and where it went, a lot that it wetted too', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 100);
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      draws: ['load 1'],
      on: [
        { fieldId: idOf('North 4'), volume: litresOf(60) },
        { lotId: idOf('compost'), volume: litresOf(40) },
      ],
    });
    expect(back(book, 'field', 'North 4').steps).toContain('T-14 → T-14 · North 4 · compost 26-1 100 L');
  });

  it('of two loads in one application the steps onto the ground have no volume; the tea adds up: 100 + 200 L', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 100);
    draw(book, 'T-14', '03 06:10', 'load 2', 200);
    apply(book, 'A-1', '03 07:00', '03 08:00', { draws: ['load 1', 'load 2'] });
    const found = back(book, 'field', 'North 4');
    expect(found.batches).toEqual({ 'T-14': 300 });
    expect(found.steps).toContain('A-1 → North 4');
  });

  it('a load that two applications share counts half, a rest that was put back not at all: (500 − 100) / 2', () => {
    const book = farm();
    field(book, 'South 1');
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 500);
    endDraw(book, '03 06:30', 'load 1', 100, 'putBack');
    apply(book, 'A-1', '03 07:00', '03 08:00', { draws: ['load 1'] });
    apply(book, 'A-2', '03 09:00', '03 10:00', { draws: ['load 1'], on: [{ fieldId: idOf('South 1') }] });
    expect(back(book, 'field', 'North 4').batches).toEqual({ 'T-14': 200 });
    // Its own rest that came back is nothing new in the batch.
    expect(back(book, 'batch', 'T-14').lots).toEqual({ 'compost 26-1': 10 });
  });

  it('what lay on the larger field around a bed counts, and says so; on a bed of the field it needs no word', () => {
    const sprayed = (on: string) => {
      const book = farm();
      field(book, 'bed 3', 'North 4');
      field(book, 'row 1', 'bed 3');
      brew(book);
      apply(book, 'A-1', '03 07:00', '03 08:00', {
        loads: [{ batch: 'T-14', litres: 400 }],
        on: [{ fieldId: idOf(on) }],
      });
      return book;
    };
    expect(back(sprayed('North 4'), 'field', 'row 1')).toMatchObject({
      lots: { 'compost 26-1': 4 },
      open: [`A-1: ${larger}`],
    });
    expect(back(sprayed('row 1'), 'field', 'North 4')).toMatchObject({ lots: { 'compost 26-1': 4 }, open: [] });
    expect(back(sprayed('bed 3'), 'field', 'bed 3').open).toEqual([]);
  });

  it('fields that lie in each other by mistake end the walk', () => {
    const book = farm();
    book.write('field.registered', '01 08:00', {
      ...{ fieldId: idOf('X'), code: 'X', kind: 'bed', landStatus: 'organic', parentId: idOf('Y') },
    });
    book.write('field.registered', '01 08:00', {
      ...{ fieldId: idOf('Y'), code: 'Y', kind: 'bed', landStatus: 'organic', parentId: idOf('X') },
    });
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 400 }],
      on: [{ fieldId: idOf('X') }],
    });
    expect(back(book, 'field', 'Y').lots).toEqual({ 'compost 26-1': 4 });
  });

  it('another field’s applications are none of its, and a tank mix alone came from its lot', () => {
    const book = farm();
    field(book, 'South 1');
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', { loads: [{ batch: 'T-14', litres: 400 }] });
    book.any('application.made', '04 08:00', {
      ...{ applicationId: idOf('A-2'), code: 'A-2', targets: [{ fieldId: idOf('South 1') }], draws: [] },
      tankMix: [{ lotId: idOf('molasses'), quantity: pounds(4) }],
      ...{ startedAt: '2026-06-04T07:00:00Z', finishedAt: '2026-06-04T08:00:00Z', method: 'foliar' },
      applicator: idOf('Ines'),
    });
    expect(back(book, 'field', 'South 1')).toMatchObject({
      lots: { 'molasses 26-1': 4 },
      batches: {},
      steps: ['A-2 → South 1', 'molasses 26-1 → A-2 4 [lb_av]'],
    });
  });

  it('a tank of which more was drawn than filled is told as open, at the load', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 1010);
    draw(book, 'T-14', '03 06:30', 'load 2', 50);
    apply(book, 'A-1', '03 07:00', '03 08:00', { draws: ['load 2'] });
    expect(back(book, 'field', 'North 4').open).toContain(
      'T-14 · North 4: what part of the tank this load was cannot be told: more was drawn than recorded as filled',
    );
  });
});

describe('back from a planting and a harvest', () => {
  const beds = () => {
    const book = farm();
    field(book, 'bed 3', 'North 4');
    field(book, 'bed 4', 'North 4');
    planting(book, 'carrots', 'bed 3');
    planting(book, 'beets', 'bed 4');
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 400 }],
      on: [{ fieldId: idOf('bed 3'), plantingId: idOf('carrots') }],
    });
    apply(book, 'A-2', '04 07:00', '04 08:00', {
      loads: [{ batch: 'T-14', litres: 200 }],
      on: [{ fieldId: idOf('bed 4') }],
    });
    return book;
  };
  it('only the application on its own bed: 400 L onto the carrots, 200 L onto the beets', () => {
    expect(back(beds(), 'planting', 'carrots')).toMatchObject({
      batches: { 'T-14': 400 },
      fields: ['bed 3'],
      plantings: ['carrots'],
    });
    expect(back(beds(), 'planting', 'carrots').steps).toContain('A-1 → carrots 400 L');
    expect(back(beds(), 'planting', 'beets')).toMatchObject({ batches: { 'T-14': 200 }, plantings: ['beets'] });
  });
  it('a harvest names the planting it came through; one that names none is told as open', () => {
    const book = beds();
    harvest(book, 'C', 'bed 3', '10 08:00', 'carrots');
    harvest(book, 'any', 'bed 4', '10 08:00');
    const named = back(book, 'harvest', 'C');
    expect(named).toMatchObject({ batches: { 'T-14': 400 }, fields: ['bed 3'], plantings: ['carrots'], open: [] });
    expect(named.steps).toEqual(expect.arrayContaining(['A-1 → bed 3 400 L', 'A-1 → carrots 400 L', 'carrots → C']));
    const bare = back(book, 'harvest', 'any');
    expect(bare.batches).toEqual({ 'T-14': 200 });
    expect(bare.steps).toEqual(expect.arrayContaining(['A-2 → bed 4 200 L', 'bed 4 → any']));
    // It may have come from any part of the bed: the beets are not named as its way.
    expect(bare.steps).not.toContainEqual(expect.stringContaining('beets'));
    expect(bare.open).toEqual(['any: the harvest names no planting: whatever reached its ground counts']);
  });
  it('a harvest of a transplant names the step from the seedlings that were sprayed in the tray', () => {
    const book = farm();
    field(book, 'tray');
    planting(book, 'seedlings', 'tray');
    planting(book, 'other seedlings', 'tray');
    planting(book, 'lettuce', 'North 4', '2026-06-20', 'seedlings');
    planting(book, 'kale', 'North 4', '2026-06-20', 'other seedlings');
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 400 }],
      on: [{ fieldId: idOf('tray') }],
    });
    harvest(book, 'H', 'North 4', '30 08:00', 'lettuce');
    const { steps } = back(book, 'harvest', 'H');
    expect(steps).toEqual(expect.arrayContaining(['seedlings → lettuce', 'lettuce → H']));
    expect(steps).not.toContain('other seedlings → kale');
  });
  it('a harvest of one of two crops that stood there names that crop alone as its way; so does the crop itself', () => {
    const book = farm();
    planting(book, 'carrots', 'North 4');
    planting(book, 'beets', 'North 4');
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', { loads: [{ batch: 'T-14', litres: 400 }] });
    harvest(book, 'H', 'North 4', '30 08:00', 'carrots');
    for (const found of [back(book, 'harvest', 'H'), back(book, 'planting', 'carrots')]) {
      expect(found).toMatchObject({ plantings: ['carrots'], fields: ['North 4'], batches: { 'T-14': 400 }, open: [] });
      expect(found.steps).toEqual(expect.arrayContaining(['A-1 → North 4 400 L', 'A-1 → carrots']));
      expect(found.steps).not.toContainEqual(expect.stringContaining('beets'));
    }
    // Of a harvest that names neither it may be both.
    harvest(book, 'mixed', 'North 4', '30 08:00');
    expect(back(book, 'harvest', 'mixed').plantings).toEqual(['beets', 'carrots']);
  });
  it('sprayed after it was planted out: the seedlings it grew from were not reached, and no step leads from them', () => {
    const book = farm();
    field(book, 'tray');
    planting(book, 'seedlings', 'tray');
    planting(book, 'lettuce', 'North 4', '2026-06-01', 'seedlings');
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', { loads: [{ batch: 'T-14', litres: 400 }] });
    harvest(book, 'H', 'North 4', '30 08:00', 'lettuce');
    for (const root of ['harvest', 'planting'] as const) {
      const { steps, plantings } = back(book, root, root === 'harvest' ? 'H' : 'lettuce');
      expect(steps).toContain('A-1 → lettuce 400 L');
      expect(steps).not.toContainEqual(expect.stringContaining('seedlings'));
      expect(plantings).toEqual(['lettuce']);
    }
    expect(stepsWithAmounts(traced(book, 'lot', 'compost'))).not.toContainEqual(expect.stringContaining('seedlings'));
  });
  it('transplanted twice, every step from the tray to the harvest is named, and nothing of what stood beside it', () => {
    const book = farm();
    field(book, 'tray');
    field(book, 'bench');
    planting(book, 'seedlings', 'tray');
    planting(book, 'other seedlings', 'tray');
    planting(book, 'pots', 'bench', '2026-06-10', 'seedlings');
    planting(book, 'lettuce', 'North 4', '2026-06-20', 'pots');
    planting(book, 'kale', 'North 4', '2026-06-20', 'other seedlings');
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 400 }],
      on: [{ fieldId: idOf('tray') }],
    });
    harvest(book, 'H', 'North 4', '30 08:00', 'lettuce');
    const way = ['A-1 → tray 400 L', 'A-1 → seedlings', 'seedlings → pots', 'pots → lettuce'];
    const onGround = (steps: readonly string[]) =>
      steps.slice(
        0,
        steps.findIndex((step) => step.includes('T-14')),
      );
    const found = back(book, 'harvest', 'H');
    expect(onGround(found.steps)).toEqual([...way, 'lettuce → H']);
    expect(found.plantings).toEqual(['seedlings']);
    expect(onGround(back(book, 'planting', 'lettuce').steps)).toEqual(way);
    expect(onGround(back(book, 'planting', 'pots').steps)).toEqual(way.slice(0, 3));
  });
  it('a harvest of what was sown later came by the ground, past what stood on the next bed', () => {
    const book = beds();
    field(book, 'bed 5', 'North 4');
    apply(book, 'A-3', '05 07:00', '05 08:00', { loads: [{ batch: 'T-14', litres: 100 }] });
    planting(book, 'spinach', 'bed 5', '2026-06-10');
    harvest(book, 'S', 'bed 5', '2026-07-20T08:00:00Z', 'spinach');
    const found = back(book, 'harvest', 'S');
    expect(found).toMatchObject({ fields: ['North 4'], plantings: [], batches: { 'T-14': 100 }, open: [] });
    expect(found.steps.slice(0, 2)).toEqual(['A-3 → North 4 100 L', 'North 4 → S']);
  });
  it('plantings that come of each other by mistake end the walk', () => {
    const book = farm();
    planting(book, 'carrots', 'North 4', '2026-05-01', 'beets');
    planting(book, 'beets', 'North 4', '2026-05-01', 'carrots');
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', { loads: [{ batch: 'T-14', litres: 400 }] });
    expect(back(book, 'planting', 'carrots').plantings).toEqual(['beets', 'carrots']);
  });
  it('a harvest of a planting that nobody described came by its field and by it', () => {
    const book = farm();
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 400 }],
      on: [{ fieldId: idOf('North 4'), plantingId: idOf('nobody knows') }],
    });
    harvest(book, 'H', 'North 4', '30 08:00', 'nobody knows');
    const planted = idOf('nobody knows').slice(0, 8);
    expect(back(book, 'harvest', 'H').steps).toEqual(
      expect.arrayContaining(['A-1 → North 4 400 L', `A-1 → ${planted} 400 L`, `${planted} → H`]),
    );
  });
  it('a harvest in the minute when spraying began was not reached; an uncertain one may have been', () => {
    const cut = (plusMinusMinutes?: number) => {
      const book = beds();
      const data = { harvestId: idOf('H'), code: 'H', fieldId: idOf('bed 3'), quantity: pounds(9), soldAs: 'organic' };
      book.any('harvest.made', '03 07:00', data, plusMinusMinutes === undefined ? {} : { plusMinusMinutes });
      return back(book, 'harvest', 'H').lots;
    };
    expect(cut()).toEqual({});
    expect(cut(1)).toEqual({ 'compost 26-1': 4 });
  });
});

describe('back from a lot', () => {
  it('wetted before and after it was used: only tea that came before the use is in the field it went on', () => {
    const book = farm();
    material(book, 'pile', 'compost', 'no');
    lot(book, 'pile', 40);
    brew(book);
    put(book, 'T-14', '02 06:10', 'molasses', 2);
    open(book, 'T-15', '02 05:00');
    fill(book, 'T-15', '02 05:30', 1000);
    put(book, 'T-15', '02 06:00', 'antifoam', 1);
    const wet = (name: string, batch: string, from: string, to: string) =>
      apply(book, name, from, to, { loads: [{ batch, litres: 100 }], on: [{ lotId: idOf('pile') }] });
    wet('A-1', 'T-14', '03 07:00', '03 08:00');
    open(book, 'T-16', '04 05:00');
    fill(book, 'T-16', '04 05:30', 1000);
    put(book, 'T-16', '04 06:00', 'pile', 4);
    apply(book, 'A-3', '05 07:00', '05 08:00', { loads: [{ batch: 'T-16', litres: 1000 }] });
    wet('A-2', 'T-15', '06 07:00', '06 08:00');
    const found = back(book, 'field', 'North 4');
    expect(Object.keys(found.lots).sort()).toEqual(['compost 26-1', 'molasses 26-1', 'pile 26-1']);
    // A tenth of T-14 (1 lb of compost, 0.2 of molasses) on 40 lb, of which 4 were used.
    expect(found.lots).toEqual({ 'pile 26-1': 4, 'compost 26-1': 0.1, 'molasses 26-1': 0.02 });
    expect(Object.keys(back(book, 'lot', 'pile').batches).sort()).toEqual(['T-14', 'T-15']);
  });
  it('a lot and a pile of which nobody wrote the beginning are told as open', () => {
    const book = farm();
    brew(book);
    put(book, 'T-14', '02 06:10', 'late kelp', 2);
    book.write('pile.finished', '01 09:00', {
      ...{ pileId: idOf('P'), lotId: idOf('own'), code: 'own', materialId: idOf('material compost') },
      quantity: pounds(20),
    });
    put(book, 'T-14', '02 06:20', 'own', 5);
    const whys = back(book, 'batch', 'T-14').open.map((each) => each.replace(/^[^:]*: /, ''));
    expect(whys).toContain('no record describes this lot');
    expect(whys).toContain('no record says what this pile was started with');
    expect(back(book, 'batch', 'T-14').steps).toContainEqual(expect.stringMatching(/→ own 20 \[lb_av\]$/));
  });
  it('a pile whose beginning is on record leaves nothing open', () => {
    const book = farm();
    material(book, 'straw', 'other', 'no');
    lot(book, 'straw', 50);
    const inputs = [{ lotId: idOf('straw'), quantity: pounds(40) }];
    book.write('pile.started', '02 08:00', { pileId: idOf('P'), code: 'P', method: 'windrow', inputs });
    book.write('pile.finished', '20 08:00', {
      ...{ pileId: idOf('P'), lotId: idOf('own'), code: 'own', materialId: idOf('material compost') },
      quantity: pounds(20),
    });
    expect(back(book, 'lot', 'own')).toMatchObject({ lots: { 'straw 26-1': 40 }, open: [] });
  });
  it('tea onto the compost it was made of is named a loop once', () => {
    const book = farm();
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 1000 }],
      on: [{ lotId: idOf('compost') }],
    });
    open(book, 'T-15', '04 05:00');
    fill(book, 'T-15', '04 05:30', 1000);
    put(book, 'T-15', '04 06:00', 'compost', 45);
    apply(book, 'A-2', '05 07:00', '05 08:00', { loads: [{ batch: 'T-15', litres: 1000 }] });
    const loop = 'compost 26-1: a loop: it was wetted with tea in which it may be itself; followed once';
    expect(back(book, 'lot', 'compost').open.filter((each) => each === loop)).toHaveLength(1);
    expect(back(book, 'batch', 'T-14').open).toEqual([]);
  });
  /** 100 L of T-14, which is made of compost, onto piles of straw; that goes into T-15 at these times, and on a field. */
  const straw = (names: readonly string[], times: readonly string[]) => {
    const book = farm();
    brew(book);
    material(book, 'straw', 'other', 'no');
    for (const name of names)
      book.write('lot.received', '01 08:00', {
        ...{ lotId: idOf(name), code: name, materialId: idOf('material straw'), supplierLot: '1' },
        quantity: pounds(40),
      });
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 100 }],
      on: names.map((name) => ({ lotId: idOf(name), volume: litresOf(100 / names.length) })),
    });
    open(book, 'T-15', '04 05:00');
    fill(book, 'T-15', '04 05:30', 1000);
    for (const time of times) for (const name of names) put(book, 'T-15', time, name, 2);
    apply(book, 'A-2', '06 07:00', '06 08:00', { loads: [{ batch: 'T-15', litres: 1000 }] });
    return book;
  };
  it.each([
    ['one pile, used once', ['straw 1'], ['04 06:00']],
    ['one pile, used twice', ['straw 1'], ['04 06:00', '04 07:00']],
    ['two piles wetted by one load', ['straw 1', 'straw 2'], ['04 06:00']],
  ])('straw wetted with tea in which there is none of it is no loop: %s', (_, names, times) => {
    const book = straw(names, times);
    expect(back(book, 'lot', 'straw 1').open).toEqual([]);
    expect(back(book, 'batch', 'T-15').open).toEqual([]);
    expect(back(book, 'field', 'North 4').open).toEqual([]);
    expect(back(book, 'batch', 'T-15').steps).toContain('A-1 → straw 1');
  });
});

describe('back from ground on which a load came that nobody recorded', () => {
  it('a load in a bucket that nobody weighed leads to its batch, without an amount', () => {
    const book = farm();
    brew(book);
    const volume = { value: 3, unit: '{measure}', measureId: idOf('bucket') };
    book.any('batch.drawn', '03 06:00', { drawId: idOf('load 1'), batchId: idOf('T-14'), volume });
    apply(book, 'A-1', '03 07:00', '03 08:00', { draws: ['load 1'] });
    expect(back(book, 'field', 'North 4').batches).toEqual({ 'T-14': null });
    // Beside one that was measured, only that one is counted.
    draw(book, 'T-14', '03 06:30', 'load 2', 100);
    apply(book, 'A-2', '03 09:00', '03 10:00', { draws: ['load 2'] });
    expect(back(book, 'field', 'North 4').batches).toEqual({ 'T-14': 100 });
  });
  it('the step onto the field stands without a volume, and the load is named as open', () => {
    const book = farm();
    apply(book, 'A-1', '03 07:00', '03 08:00', { draws: ['lost slip'] });
    const found = back(book, 'field', 'North 4');
    expect(found.steps).toContain('A-1 → North 4');
    expect(found.open).toEqual([
      `${idOf('lost slip').slice(0, 8)}: no record says from which batch this load was drawn`,
    ]);
  });
});

describe('a loop written by wrong clocks', () => {
  it('is followed once: the lots of the first load are told before those of the second', () => {
    const book = farm();
    brew(book);
    put(book, 'T-14', '02 07:00', 'molasses', 1);
    open(book, 'T-15', '02 05:00');
    fill(book, 'T-15', '02 05:30', 1000);
    put(book, 'T-15', '02 06:00', 'antifoam', 1);
    // The compost was wetted on the 1st, by its record, with tea that was brewed of it on the 2nd.
    apply(book, 'A-1', '01 09:00', '01 10:00', {
      draws: ['load 1', 'load 2'],
      on: [{ lotId: idOf('compost') }, { fieldId: idOf('North 4') }],
    });
    draw(book, 'T-14', '03 10:00', 'load 1', 100);
    draw(book, 'T-15', '03 10:00', 'load 2', 100);
    const found = back(book, 'field', 'North 4');
    expect(Object.entries(found.lots)).toEqual([
      ['compost 26-1', 0.5],
      ['molasses 26-1', 0.05],
      ['antifoam 26-1', 0.05],
    ]);
    expect(found.open.filter((each) => each.includes('a loop'))).toHaveLength(1);
  });
});

describe('back from a batch', () => {
  it('an addition of 16 oz to a lot kept in pounds is 1 lb', () => {
    const book = farm();
    brew(book);
    const quantity = { value: 16, unit: '[oz_av]' };
    book.write('batch.ingredientAdded', '02 06:10', { batchId: idOf('T-14'), lotId: idOf('molasses'), quantity });
    const found = back(book, 'batch', 'T-14');
    expect(found.lots).toMatchObject({ 'molasses 26-1': 1 });
    expect(found.steps).toContain('molasses 26-1 → T-14 1 [lb_av]');
  });
  it('through tea carried over: a tenth of 10 lb came along, and the batch it came from is named', () => {
    const book = farm();
    brew(book);
    open(book, 'T-15', '03 05:00');
    fill(book, 'T-15', '03 05:30', 900);
    draw(book, 'T-14', '03 06:00', 'load 1', 100);
    endDraw(book, '03 07:00', 'load 1', 100, 'carriedOver', 'T-15');
    put(book, 'T-15', '03 08:00', 'molasses', 3);
    const found = back(book, 'batch', 'T-15');
    expect(found.lots).toEqual({ 'compost 26-1': 1, 'molasses 26-1': 3 });
    expect(Object.keys(found.batches)).toEqual(['T-14']);
    expect(found.steps).toContain('T-14 → T-15 100 L');
  });
  it('tea carried over after a load was drawn is not in that load', () => {
    const book = farm();
    brew(book);
    open(book, 'T-15', '03 05:00');
    fill(book, 'T-15', '03 05:30', 900);
    draw(book, 'T-15', '03 05:45', 'early', 100);
    draw(book, 'T-14', '03 06:00', 'load 1', 100);
    endDraw(book, '03 07:00', 'load 1', 100, 'carriedOver', 'T-15');
    draw(book, 'T-15', '03 08:00', 'late', 100);
    field(book, 'South 1');
    apply(book, 'A-1', '03 09:00', '03 10:00', { draws: ['early'] });
    apply(book, 'A-2', '03 09:00', '03 10:00', { draws: ['late'], on: [{ fieldId: idOf('South 1') }] });
    expect(Object.keys(back(book, 'field', 'North 4').batches)).toEqual(['T-15']);
    expect(Object.keys(back(book, 'field', 'South 1').batches).sort()).toEqual(['T-14', 'T-15']);
  });
});

describe('tea carried over at the minute of a draw', () => {
  it('came after it: it is not in the load, though an earlier rest of the same load is', () => {
    const book = farm();
    brew(book);
    open(book, 'T-15', '02 05:00');
    fill(book, 'T-15', '02 05:30', 1000);
    draw(book, 'T-14', '03 06:00', 'rest', 200);
    endDraw(book, '03 07:00', 'rest', 100, 'carriedOver', 'T-15');
    endDraw(book, '03 08:00', 'rest', 50, 'carriedOver', 'T-15');
    draw(book, 'T-15', '03 08:00', 'load', 400);
    apply(book, 'A-1', '03 09:00', '03 10:00', { draws: ['load'] });
    const found = traced(book, 'field', 'North 4', 'backward');
    const carried = found.edges.filter(({ from, to }) => from.id === idOf('rest') && to.id === idOf('T-15'));
    expect(carried.map(({ quantity }) => quantity?.value)).toEqual([100]);
  });
});

import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { openSeason } from '../fold/season.ts';
import { Book, gallons, idOf, litresOf, pounds } from '../testing/book.ts';
import { apply, brew, draw, endDraw, farm, field, fill, lot, material, open, put } from '../testing/brew.ts';
import { randomSeason } from '../testing/randomSeason.ts';
import { codeIn, harvest, planting, quantities, stepsWithAmounts, traced } from '../testing/traced.ts';
import { trace } from './trace.ts';
import type { Trace } from './types.ts';

const ends = (found: Trace) => found.ends.map((each) => [each.kind, each.quantity?.value]);
const steps = (found: Trace) => {
  const code = codeIn(found);
  return found.edges.map((edge) => `${code(edge.from.id)} → ${code(edge.to.id)}`);
};

describe('where a lot went', () => {
  it('10 lb of 100 in 1000 L, half drawn and split 300 to 200 over two fields: 3 lb and 2 lb, 5 in the tank, 90 in stock', () => {
    const book = farm();
    field(book, 'South 1');
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 500);
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      draws: ['load 1'],
      on: [
        { fieldId: idOf('North 4'), volume: litresOf(300) },
        { fieldId: idOf('South 1'), volume: litresOf(200) },
      ],
    });
    const found = traced(book, 'lot', 'compost');
    expect(quantities(found.reached.fields)).toEqual({ 'North 4': 3, 'South 1': 2 });
    expect(found.reached.fields.map((each) => each.share)).toEqual([0.03, 0.02]);
    expect(quantities(found.reached.batches)).toEqual({ 'T-14': 10 });
    expect(ends(found)).toEqual([
      ['leftInTank', 5],
      ['leftInStock', 90],
    ]);
    expect(steps(found)).toEqual([
      'compost 26-1 → T-14',
      'T-14 · North 4 · South 1 → A-1',
      'A-1 → North 4',
      'A-1 → South 1',
      'T-14 → T-14 · North 4 · South 1',
    ]);
    expect(found.edges.map((edge) => edge.quantity?.value)).toEqual([10, 5, 3, 2, 5]);
    expect(found.edges.every((edge) => edge.quantity?.unit === '[lb_av]')).toBe(true);
  });

  it('without volumes the targets’ areas split it (3 to 1), without areas it is shared equally, and says so', () => {
    const area = (value: number) => ({ area: { value, unit: '[acr_us]' } });
    const split = (north: object, south: object) => {
      const book = farm();
      field(book, 'South 1');
      brew(book);
      apply(book, 'A-1', '03 07:00', '03 08:00', {
        loads: [{ batch: 'T-14', litres: 400 }],
        on: [
          { fieldId: idOf('North 4'), ...north },
          { fieldId: idOf('South 1'), ...south },
        ],
      });
      return traced(book, 'lot', 'compost');
    };
    expect(quantities(split(area(3), area(1)).reached.fields)).toEqual({ 'North 4': 3, 'South 1': 1 });
    const equal = split(area(3), {});
    expect(quantities(equal.reached.fields)).toEqual({ 'North 4': 2, 'South 1': 2 });
    expect(equal.unresolved.map((each) => each.why)).toContainEqual(expect.stringContaining('shared out equally'));
  });

  it('what was dumped, supplied, lost and thrown away is an end each: 1 + 2 + 1 + 5 lb of the 10 + 5', () => {
    const book = farm();
    brew(book);
    book.write('batch.lost', '02 20:00', { batchId: idOf('T-14'), volume: litresOf(100), cause: 'foam' });
    draw(book, 'T-14', '03 06:00', 'load 1', 100);
    endDraw(book, '03 07:00', 'load 1', 100, 'dumped');
    book.write('tea.supplied', '03 08:00', {
      batchId: idOf('T-14'),
      volume: litresOf(200),
      to: { name: 'the orchard next door' },
      statementGiven: 'yes',
      sold: 'no',
    });
    book.write('lot.disposed', '04 08:00', { lotId: idOf('compost'), quantity: pounds(5), reason: 'wet' });
    const found = traced(book, 'lot', 'compost');
    expect(ends(found)).toEqual([
      ['lotDisposed', 5],
      ['dumped', 1],
      ['lost', 1],
      ['supplied', 2],
      ['leftInTank', 6],
      ['leftInStock', 85],
    ]);
    expect(found.unresolved.map((each) => each.why)).toContainEqual(expect.stringContaining('the orchard next door'));
  });

  it('goes on through a carried-over rest: 100 of 1000 L into 900 L of T-15, half of that on North 4: 0.5 lb', () => {
    const book = farm();
    brew(book);
    open(book, 'T-15', '03 05:00');
    fill(book, 'T-15', '03 05:30', 900);
    draw(book, 'T-14', '03 06:00', 'load 1', 100);
    endDraw(book, '03 07:00', 'load 1', 100, 'carriedOver', 'T-15');
    apply(book, 'A-1', '03 09:00', '03 10:00', { loads: [{ batch: 'T-15', litres: 500 }] });
    const found = traced(book, 'lot', 'compost');
    expect(quantities(found.reached.fields)).toEqual({ 'North 4': 0.5 });
    expect(quantities(found.reached.batches)).toEqual({ 'T-14': 10, 'T-15': 1 });
  });

  it('goes through an own pile: 40 lb of straw, finished as lots of 30 and 10 lb: 3 lb of the first hold 3 lb of straw', () => {
    const book = farm();
    material(book, 'straw', 'other', 'no');
    lot(book, 'straw', 50);
    book.write('pile.started', '02 08:00', {
      pileId: idOf('P-1'),
      code: 'P-1',
      method: 'windrow',
      inputs: [{ lotId: idOf('straw'), quantity: pounds(40) }],
    });
    for (const [name, quantity, at] of [
      ['own A', 30, '20 08:00'],
      ['own B', 10, '21 08:00'],
    ] as const) {
      book.write('pile.finished', at, {
        pileId: idOf('P-1'),
        lotId: idOf(name),
        code: name,
        materialId: idOf('material compost'),
        quantity: pounds(quantity),
      });
    }
    open(book, 'T-20', '22 05:00');
    fill(book, 'T-20', '22 05:30', 1000);
    put(book, 'T-20', '22 06:00', 'own A', 3);
    apply(book, 'A-9', '23 09:00', '23 10:00', { loads: [{ batch: 'T-20', litres: 1000 }] });
    const found = traced(book, 'lot', 'straw');
    expect(quantities(found.reached.lots)).toEqual({ 'own A': 30, 'own B': 10 });
    expect(quantities(found.reached.fields)).toEqual({ 'North 4': 3 });
    const back = traced(book, 'field', 'North 4', 'backward');
    expect(quantities(back.reached.lots)).toEqual({ 'own A': 3, 'straw 26-1': 3 });
    expect(steps(back)).toContain('straw 26-1 → P-1');
    expect(steps(back)).toContain('P-1 → own A');
  });

  it('a load sprayed in two goes is shared equally between them, and says so: 4 lb, so 2 lb each', () => {
    const book = farm();
    field(book, 'South 1');
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 400);
    apply(book, 'A-1', '03 07:00', '03 08:00', { draws: ['load 1'] });
    apply(book, 'A-2', '03 09:00', '03 10:00', { draws: ['load 1'], on: [{ fieldId: idOf('South 1') }] });
    const found = traced(book, 'lot', 'compost');
    expect(quantities(found.reached.fields)).toEqual({ 'North 4': 2, 'South 1': 2 });
    expect(found.unresolved.map((each) => each.why)).toContainEqual(expect.stringContaining('several applications'));
    // Nothing of it concerns a lot that was never in that tank.
    expect(traced(book, 'lot', 'molasses').unresolved).toEqual([]);
  });

  it('what was fed to a worm bin after a harvest of castings is not in that lot, only in the next', () => {
    const book = farm();
    material(book, 'straw', 'other', 'no');
    lot(book, 'straw', 50);
    material(book, 'peels', 'other', 'no');
    lot(book, 'peels', 50);
    const finish = (name: string, at: string) =>
      book.write('pile.finished', at, {
        pileId: idOf('bin'),
        lotId: idOf(name),
        code: name,
        materialId: idOf('material compost'),
        quantity: pounds(10),
      });
    book.write('pile.started', '02 08:00', {
      pileId: idOf('bin'),
      code: 'bin',
      method: 'vermicompost',
      inputs: [{ lotId: idOf('straw'), quantity: pounds(40) }],
    });
    finish('first', '10 08:00');
    book.write('pile.added', '11 08:00', { pileId: idOf('bin'), lotId: idOf('peels'), quantity: pounds(8) });
    finish('second', '20 08:00');
    expect(quantities(traced(book, 'lot', 'first', 'backward').reached.lots)).toEqual({ 'straw 26-1': 20 });
    expect(quantities(traced(book, 'lot', 'second', 'backward').reached.lots)).toEqual({
      'straw 26-1': 20,
      'peels 26-1': 8,
    });
    expect(quantities(traced(book, 'lot', 'peels').reached.lots)).toEqual({ second: 8 });
  });

  it('tea onto the compost it was made of is a loop that comes to its end', () => {
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
    const found = traced(book, 'lot', 'compost');
    // 45 lb taken from the 90 in stock, with half of the 10 lb that came back with the tea.
    expect(quantities(found.reached.fields)).toEqual({ 'North 4': 50 });
    expect(ends(found)).toEqual([
      ['leftInStock', 5],
      ['leftInStock', 45],
    ]);
    expect(found.unresolved.map((each) => each.why)).toContainEqual(expect.stringContaining('a loop'));
    expect(quantities(traced(book, 'lot', 'compost', 'backward').reached.batches)).toEqual({ 'T-14': 1000 });
  });

  it('tea that wetted compost: the batch reached that lot and no field, and what it was made of is found from the lot', () => {
    const book = farm();
    brew(book);
    lot(book, 'pile compost', 40);
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 1000 }],
      on: [{ lotId: idOf('pile compost') }],
    });
    const found = traced(book, 'batch', 'T-14');
    expect(found.reached.fields).toEqual([]);
    expect(found.edges.filter(({ from }) => from.kind === 'application').map(({ to }) => to)).toEqual([
      expect.objectContaining({ kind: 'lot', id: idOf('pile compost') }),
    ]);
    expect(found.unresolved.map((each) => each.why)).not.toContainEqual(expect.stringContaining('a loop'));
    const back = traced(book, 'lot', 'pile compost', 'backward');
    expect(quantities(back.reached.batches)).toEqual({ 'T-14': 1000 });
  });

  it('a planting that an application names and nobody described is left out; the field is reached', () => {
    const book = farm();
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 1000 }],
      on: [{ fieldId: idOf('North 4'), plantingId: idOf('nobody knows') }],
    });
    harvest(book, 'H-1', 'North 4', '2026-08-01T08:00:00Z');
    const found = traced(book, 'batch', 'T-14');
    expect(found.reached.fields.map(({ code }) => code)).toEqual(['North 4']);
    expect(found.reached.harvests.map(({ code }) => code)).toEqual(['H-1']);
    const back = traced(book, 'harvest', 'H-1', 'backward');
    expect(back.reached.batches.map(({ code }) => code)).toEqual(['T-14']);
  });

  it('a struck record gives no edge', () => {
    const book = farm();
    brew(book);
    const wrong = put(book, 'T-14', '02 06:05', 'molasses', 2);
    book.strike(wrong, '02 07:00');
    const found = traced(book, 'lot', 'molasses');
    expect(found.edges).toEqual([]);
    expect(ends(found)).toEqual([['leftInStock', 100]]);
  });

  it('a tank mix goes straight from the lot to the ground', () => {
    const book = farm();
    brew(book);
    book.write('application.made', '03 08:00', {
      applicationId: idOf('A-1'),
      code: 'A-1',
      targets: [{ fieldId: idOf('North 4') }],
      draws: [{ batchId: idOf('T-14'), volume: litresOf(100) }],
      tankMix: [{ lotId: idOf('molasses'), quantity: pounds(4) }],
      startedAt: '2026-06-03T07:00:00Z',
      finishedAt: '2026-06-03T08:00:00Z',
      method: 'foliar',
      applicator: idOf('Ines'),
    });
    expect(quantities(traced(book, 'lot', 'molasses').reached.fields)).toEqual({ 'North 4': 4 });
  });

  it('from a tank of which more was drawn than filled the amount cannot be told: the field is named, without one', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 1010);
    apply(book, 'A-1', '03 07:00', '03 08:00', { loads: [{ batch: 'T-14', litres: 50 }] });
    const found = traced(book, 'lot', 'compost');
    expect(quantities(found.reached.fields)).toEqual({ 'North 4': null });
    expect(found.unresolved.map((each) => each.why)).toContainEqual(expect.stringContaining('cannot be told'));
  });

  it('a lot whose receipt is still on somebody’s phone is followed all the same, without amounts', () => {
    const book = farm();
    brew(book);
    put(book, 'T-14', '02 06:10', 'late kelp', 2);
    apply(book, 'A-1', '03 07:00', '03 08:00', { loads: [{ batch: 'T-14', litres: 400 }] });
    const found = traced(book, 'lot', 'late kelp');
    expect(quantities(found.reached.fields)).toEqual({ 'North 4': null });
    expect(found.unresolved.map((each) => each.why)).toContainEqual(expect.stringContaining('no record describes'));
    expect(trace(openSeason(book.records), { kind: 'lot', id: idOf('T-14') }, 'forward')).toBeNull();
  });

  it('a lot nobody ever heard of has no trace', () => {
    expect(trace(openSeason(farm().records), { kind: 'lot', id: idOf('no such lot') }, 'forward')).toBeNull();
  });
});

describe('the tea of a batch', () => {
  it('is followed in litres through another tank: of 100 L carried into 900 L, half goes on North 4', () => {
    const book = farm();
    brew(book);
    open(book, 'T-15', '03 05:00');
    fill(book, 'T-15', '03 05:30', 900);
    draw(book, 'T-14', '03 06:00', 'load 1', 100);
    endDraw(book, '03 07:00', 'load 1', 100, 'carriedOver', 'T-15');
    apply(book, 'A-1', '03 09:00', '03 10:00', { loads: [{ batch: 'T-15', litres: 500 }] });
    const first = traced(book, 'batch', 'T-14');
    expect(first.whole).toEqual({ value: 1000, unit: 'L' });
    expect(quantities(first.reached.fields)).toEqual({ 'North 4': 50 });
    // Once in T-15 all of it is that batch's tea: 1000 L, half of it sprayed.
    const second = traced(book, 'batch', 'T-15');
    expect(second.whole).toEqual({ value: 1000, unit: 'L' });
    expect(quantities(second.reached.fields)).toEqual({ 'North 4': 500 });
    expect(ends(second)).toEqual([['leftInTank', 500]]);
  });

  it('backward it names every lot in it with the amount', () => {
    const book = farm();
    brew(book);
    put(book, 'T-14', '02 06:10', 'molasses', 2);
    const found = traced(book, 'batch', 'T-14', 'backward');
    expect(quantities(found.reached.lots)).toEqual({ 'compost 26-1': 10, 'molasses 26-1': 2 });
    expect(found.reached.lots.map((each) => each.share)).toEqual([0.1, 0.02]);
  });
});

describe('which harvests an application reaches', () => {
  function sprayed() {
    const book = farm();
    field(book, 'bed 3', 'North 4');
    field(book, 'bed 4', 'North 4');
    planting(book, 'carrots', 'bed 3', '2026-05-01');
    brew(book);
    return book;
  }
  const harvests = (book: Book) => traced(book, 'lot', 'compost').reached.harvests.map((each) => each.code);

  it('those of the same ground after its start: a bed is reached through its field, its sister bed is not', () => {
    const book = sprayed();
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 400 }],
      on: [{ fieldId: idOf('bed 3') }],
    });
    harvest(book, 'before', 'bed 3', '03 06:00', 'carrots');
    harvest(book, 'bed', 'bed 3', '10 08:00', 'carrots');
    harvest(book, 'whole field', 'North 4', '11 08:00', 'carrots');
    harvest(book, 'sister', 'bed 4', '11 08:00');
    expect(harvests(book)).toEqual(['bed', 'whole field']);
  });

  it('not one that names another planting than the application does', () => {
    const book = sprayed();
    planting(book, 'beets', 'bed 3', '2026-05-02');
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 400 }],
      on: [{ fieldId: idOf('bed 3'), plantingId: idOf('carrots') }],
    });
    harvest(book, 'C', 'bed 3', '10 08:00', 'carrots');
    harvest(book, 'B', 'bed 3', '10 08:00', 'beets');
    harvest(book, 'unnamed', 'bed 3', '10 08:00');
    expect(harvests(book)).toEqual(['C', 'unnamed']);
    expect(traced(book, 'lot', 'compost').unresolved.map((each) => each.why)).toContainEqual(
      expect.stringContaining('names no planting'),
    );
    expect(traced(book, 'harvest', 'B', 'backward').reached.lots).toEqual([]);
    expect(quantities(traced(book, 'harvest', 'C', 'backward').reached.lots)).toEqual({ 'compost 26-1': 4 });
  });

  it('an application on a whole field that names one planting does not reach the next bed’s crop', () => {
    const book = sprayed();
    planting(book, 'beets', 'bed 4', '2026-05-02');
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 400 }],
      on: [{ fieldId: idOf('North 4'), plantingId: idOf('carrots') }],
    });
    harvest(book, 'C', 'bed 3', '10 08:00', 'carrots');
    harvest(book, 'B', 'bed 4', '10 08:00', 'beets');
    expect(harvests(book)).toEqual(['C']);
  });

  it('of plantings it does not name, those standing at its start; one ended before is not among them', () => {
    const book = sprayed();
    planting(book, 'radishes', 'bed 3', '2026-04-01');
    book.write('planting.ended', '02 12:00', { plantingId: idOf('radishes') });
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 400 }],
      on: [{ fieldId: idOf('bed 3') }],
    });
    expect(traced(book, 'lot', 'compost').reached.plantings.map((each) => each.code)).toEqual(['carrots']);
  });

  it('on bare soil every later harvest of that ground, whatever was sown there afterwards', () => {
    const book = sprayed();
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 400 }],
      on: [{ fieldId: idOf('bed 4') }],
    });
    planting(book, 'spinach', 'bed 4', '2026-06-10');
    harvest(book, 'S', 'bed 4', '2026-07-20T08:00:00Z', 'spinach');
    expect(harvests(book)).toEqual(['S']);
  });

  it('transplants take along what their seedlings were watered with', () => {
    const book = sprayed();
    field(book, 'trays');
    planting(book, 'seedlings', 'trays', '2026-05-20');
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 400 }],
      on: [{ fieldId: idOf('trays') }],
    });
    planting(book, 'lettuce', 'bed 4', '2026-06-20', 'seedlings');
    harvest(book, 'L', 'bed 4', '2026-07-20T08:00:00Z', 'lettuce');
    const found = traced(book, 'lot', 'compost');
    expect(found.reached.harvests.map((each) => each.code)).toEqual(['L']);
    expect(steps(found)).toContain('seedlings → lettuce');
    expect(steps(found)).toContain('lettuce → L');
    expect(quantities(traced(book, 'harvest', 'L', 'backward').reached.lots)).toEqual({ 'compost 26-1': 4 });
  });

  it('and on to where it was shipped', () => {
    const book = sprayed();
    apply(book, 'A-1', '03 07:00', '03 08:00', { loads: [{ batch: 'T-14', litres: 400 }] });
    harvest(book, 'C', 'bed 3', '10 08:00', 'carrots');
    book.write('harvest.shipped', '11 08:00', {
      harvestId: idOf('C'),
      quantity: pounds(1200),
      to: 'packing shed',
      reference: 'BOL 118',
    });
    const found = traced(book, 'lot', 'compost');
    expect(found.reached.shipments.map((each) => each.code)).toEqual(['BOL 118']);
    // Quantities are the lot's; what was shipped of the harvest stands apart.
    const shipped = found.edges.find((edge) => edge.to.kind === 'shipment');
    expect(shipped?.shipped).toEqual(pounds(1200));
    expect(shipped?.quantity).toBeUndefined();
    expect(traced(book, 'field', 'North 4').reached.shipments).toHaveLength(1);
    expect(traced(book, 'harvest', 'C').reached.shipments).toHaveLength(1);
  });
});

describe('backward', () => {
  it('a load of an unknown draw stands among what is unresolved', () => {
    const book = farm();
    apply(book, 'A-1', '03 07:00', '03 08:00', { draws: ['nobody recorded'] });
    const found = traced(book, 'field', 'North 4', 'backward');
    expect(found.unresolved).toEqual([
      { id: idOf('nobody recorded'), why: 'no record says from which batch this load was drawn' },
    ]);
  });

  it('tea received from elsewhere says whose records go on', () => {
    const book = farm();
    book.write('tea.received', '03 06:00', {
      batchId: idOf('N-7'),
      code: 'N-7',
      volume: gallons(60),
      from: { name: 'the farm down the road' },
    });
    apply(book, 'A-1', '03 07:00', '03 08:00', { loads: [{ batch: 'N-7', litres: 100 }] });
    const found = traced(book, 'field', 'North 4', 'backward');
    expect(quantities(found.reached.batches)).toEqual({ 'N-7': 100 });
    expect(found.unresolved[0]?.why).toContain('the farm down the road');
  });
});

describe('a step that one record tells in several parts', () => {
  const twoCrops = () => {
    const book = farm();
    planting(book, 'carrots', 'North 4');
    planting(book, 'beets', 'North 4');
    brew(book);
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      loads: [{ batch: 'T-14', litres: 100 }],
      on: [
        { fieldId: idOf('North 4'), plantingId: idOf('carrots'), volume: litresOf(60) },
        { fieldId: idOf('North 4'), plantingId: idOf('beets'), volume: litresOf(40) },
      ],
    });
    return book;
  };
  const step = (found: Trace, to: string): string[] =>
    stepsWithAmounts(found).filter((each) => each.includes(`→ ${to}`));

  it('60 L on the carrots and 40 L on the beets of one field: 100 L on the field, of 10 lb in 1000 L 1 lb', () => {
    const book = twoCrops();
    const forward = traced(book, 'lot', 'compost');
    expect(step(forward, 'North 4')).toEqual(['A-1 → North 4 1 [lb_av]']);
    expect(quantities(forward.reached.fields)).toEqual({ 'North 4': 1 });
    expect(step(forward, 'carrots')).toEqual(['A-1 → carrots 0.6 [lb_av]']);
    expect(step(forward, 'beets')).toEqual(['A-1 → beets 0.4 [lb_av]']);
    expect(step(traced(book, 'field', 'North 4', 'backward'), 'North 4')).toEqual(['A-1 → North 4 100 L']);
    expect(step(traced(book, 'planting', 'carrots', 'backward'), 'carrots')).toEqual(['A-1 → carrots 60 L']);
  });

  it('10 lb and 5 lb of one lot into a pile: 15 lb, both ways', () => {
    const book = farm();
    const input = (value: number) => ({ lotId: idOf('compost'), quantity: pounds(value), animalOrigin: 'no' });
    book.write('pile.started', '2026-06-02T06:00:00Z', {
      ...{ pileId: idOf('P-1'), code: 'P-1', method: 'static', inputs: [input(10), input(5)] },
      carbonToNitrogen: 30,
    });
    book.write('pile.finished', '2026-07-02T06:00:00Z', {
      ...{ pileId: idOf('P-1'), lotId: idOf('own'), code: 'own', materialId: idOf('material compost') },
      quantity: pounds(12),
    });
    expect(step(traced(book, 'lot', 'compost'), 'P-1')).toEqual(['compost 26-1 → P-1 15 [lb_av]']);
    expect(step(traced(book, 'lot', 'own', 'backward'), 'P-1')).toEqual(['compost 26-1 → P-1 15 [lb_av]']);
  });

  it('4 lb and 3 lb of one lot in a tank mix: 7 lb, both ways', () => {
    const book = farm();
    brew(book);
    const mix = [4, 3].map((value) => ({ lotId: idOf('molasses'), quantity: pounds(value) }));
    book.write('application.made', '2026-06-03T08:00:00Z', {
      ...{ applicationId: idOf('A-1'), code: 'A-1', targets: [{ fieldId: idOf('North 4') }], tankMix: mix },
      draws: [{ batchId: idOf('T-14'), volume: litresOf(100) }],
      ...{ startedAt: '2026-06-03T07:00:00Z', finishedAt: '2026-06-03T08:00:00Z' },
      ...{ method: 'soilDrench', applicator: idOf('Ines') },
    });
    expect(step(traced(book, 'lot', 'molasses'), 'A-1')).toEqual(['molasses 26-1 → A-1 7 [lb_av]']);
    expect(step(traced(book, 'field', 'North 4', 'backward'), 'A-1')).toContain('molasses 26-1 → A-1 7 [lb_av]');
  });

  it.each([
    ['4 lb and a litre', [pounds(4), litresOf(1)]],
    ['a litre and 4 lb', [litresOf(1), pounds(4)]],
    ['a litre and a litre', [litresOf(1), litresOf(1)]],
  ])('%s of a lot kept in pounds, of which nobody knows what a litre weighs: no amount is told', (_, parts) => {
    const book = farm();
    brew(book);
    const mix = parts.map((quantity) => ({ lotId: idOf('molasses'), quantity }));
    book.write('application.made', '2026-06-03T08:00:00Z', {
      ...{ applicationId: idOf('A-1'), code: 'A-1', targets: [{ fieldId: idOf('North 4') }], tankMix: mix },
      draws: [{ batchId: idOf('T-14'), volume: litresOf(100) }],
      ...{ startedAt: '2026-06-03T07:00:00Z', finishedAt: '2026-06-03T08:00:00Z' },
      ...{ method: 'soilDrench', applicator: idOf('Ines') },
    });
    expect(step(traced(book, 'field', 'North 4', 'backward'), 'A-1')).toContain('molasses 26-1 → A-1');
  });

  it('in any season, what reached a field is the sum of the steps that lead there', () => {
    fc.assert(
      fc.property(randomSeason, (records) => {
        const season = openSeason(records);
        for (const { id } of season.lots()) {
          const found = trace(season, { kind: 'lot', id }, 'forward');
          for (const field of found?.reached.fields ?? []) {
            const steps = found?.edges.filter(({ to }) => to.kind === 'field' && to.id === field.id) ?? [];
            const sum = steps.reduce((all, { quantity }) => all + (quantity?.value ?? 0), 0);
            expect(sum).toBeCloseTo(field.quantity?.value ?? 0, 9);
          }
        }
      }),
      { numRuns: 60 },
    );
  });
});

import { describe, expect, it } from '@jest/globals';
import { openSeason } from '../fold/season.ts';
import { Book, gallons, idOf, litresOf } from '../testing/book.ts';
import { apply, brew, draw, endDraw, farm, field, fill, open, put } from '../testing/brew.ts';
import { amountText } from '../testing/traced.ts';
import { edgesOf } from './edges.ts';

/** The steps of a batch as `kind name → kind name quantity`, names as a test gave them. */
function steps(book: Book, batch: string, names: readonly string[]): string[] {
  const known = new Map(names.map((name) => [idOf(name), name]));
  return edgesOf(openSeason(book.records), idOf(batch)).map(({ from, to, quantity }) => {
    const end = ({ kind, id }: typeof from) => `${kind} ${known.get(id) ?? '?'}`;
    return `${end(from)} → ${end(to)}${amountText(quantity)}`;
  });
}

describe('the recorded steps of a batch', () => {
  it('lots in, the load out, 100 L of it put back, the other 400 L 3 to 1 on a field and onto compost', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 500);
    endDraw(book, '03 06:30', 'load 1', 100, 'putBack');
    apply(book, 'A-1', '03 07:00', '03 08:00', {
      draws: ['load 1'],
      on: [
        { fieldId: idOf('North 4'), volume: litresOf(300) },
        { lotId: idOf('compost'), volume: litresOf(100) },
      ],
    });
    expect(steps(book, 'T-14', ['T-14', 'compost', 'load 1', 'A-1', 'North 4'])).toEqual([
      'lot compost → batch T-14 10 [lb_av]',
      'batch T-14 → draw load 1 500 L',
      'draw load 1 → batch T-14 100 L',
      'draw load 1 → application A-1 400 L',
      'application A-1 → field North 4 300 L',
      'application A-1 → lot compost 100 L',
    ]);
  });

  it('a rest carried over stands at both batches, dumped tea and a rest carried to nobody knows where at none', () => {
    const book = farm();
    brew(book);
    open(book, 'T-15', '03 05:00');
    fill(book, 'T-15', '03 05:30', 900);
    draw(book, 'T-14', '03 06:00', 'load 1', 500);
    endDraw(book, '03 06:30', 'load 1', 100, 'carriedOver', 'T-15');
    endDraw(book, '03 06:40', 'load 1', 50, 'dumped');
    endDraw(book, '03 06:50', 'load 1', 50, 'carriedOver');
    const names = ['T-14', 'T-15', 'compost', 'load 1', 'A-1', 'North 4'];
    expect(steps(book, 'T-14', names).slice(1)).toEqual([
      'batch T-14 → draw load 1 500 L',
      'draw load 1 → batch T-15 100 L',
    ]);
    expect(steps(book, 'T-15', names)).toEqual(['draw load 1 → batch T-15 100 L']);
    apply(book, 'A-1', '03 07:00', '03 08:00', { draws: ['load 1'] });
    // 500 drawn less 100, 50 and 50.
    expect(steps(book, 'T-14', names)).toContain('draw load 1 → application A-1 300 L');
  });

  it('a struck carrying over gives no step, and nothing of a batch nobody recorded', () => {
    const book = farm();
    brew(book);
    open(book, 'T-15', '03 05:00');
    draw(book, 'T-14', '03 06:00', 'load 1', 500);
    book.strike(endDraw(book, '03 06:30', 'load 1', 100, 'carriedOver', 'T-15'), '03 07:00');
    expect(steps(book, 'T-15', [])).toEqual([]);
    expect(steps(book, 'no such batch', [])).toEqual([]);
  });

  it('more ended of a load than was drawn: nothing was applied of it, not less than nothing', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 100);
    endDraw(book, '03 06:30', 'load 1', 150, 'dumped');
    apply(book, 'A-1', '03 07:00', '03 08:00', { draws: ['load 1'] });
    expect(steps(book, 'T-14', ['T-14', 'load 1', 'A-1'])).toContain('draw load 1 → application A-1 0 L');
  });

  it('a load in gallons stays in gallons; one in buckets nobody weighed has no volume further on', () => {
    const loaded = (volume: { value: number; unit: string; measureId?: string }) => {
      const book = farm();
      brew(book);
      book.any('batch.drawn', '03 06:00', { drawId: idOf('load 1'), batchId: idOf('T-14'), volume });
      apply(book, 'A-1', '03 07:00', '03 08:00', { draws: ['load 1'] });
      return steps(book, 'T-14', ['T-14', 'load 1', 'A-1', 'North 4', 'compost']);
    };
    expect(loaded(gallons(100)).slice(2)).toEqual([
      'draw load 1 → application A-1 100 [gal_us]',
      'application A-1 → field North 4 100 [gal_us]',
    ]);
    expect(loaded({ value: 3, unit: '{measure}', measureId: idOf('bucket') }).slice(2)).toEqual([
      'draw load 1 → application A-1',
      'application A-1 → field North 4',
    ]);
  });

  it('a bucket that was weighed out counts in litres: 3 of 20 L are 60 L', () => {
    const book = farm();
    book.any('measure.registered', '01 08:00', {
      ...{ measureId: idOf('bucket'), name: 'bucket', equals: litresOf(20), weighedOn: '2026-01-02' },
    });
    brew(book);
    const volume = { value: 3, unit: '{measure}', measureId: idOf('bucket') };
    book.any('batch.drawn', '03 06:00', { drawId: idOf('load 1'), batchId: idOf('T-14'), volume });
    apply(book, 'A-1', '03 07:00', '03 08:00', { draws: ['load 1'] });
    expect(steps(book, 'T-14', ['load 1', 'A-1'])).toContain('draw load 1 → application A-1 60 L');
  });

  it('a load sprayed in two goes is half each; two plantings of one bed are told no volume each, one alone is', () => {
    const book = farm();
    for (const crop of ['carrots', 'beets'])
      book.write('planting.started', '2026-05-01T08:00:00Z', {
        ...{ plantingId: idOf(crop), fieldId: idOf('North 4'), crop, ediblePart: 'root', plantedOn: '2026-05-01' },
      });
    field(book, 'South 1');
    book.write('planting.started', '2026-05-01T08:00:00Z', {
      ...{ plantingId: idOf('kale'), fieldId: idOf('South 1'), crop: 'kale', ediblePart: 'leaf' },
      plantedOn: '2026-05-01',
    });
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 400);
    apply(book, 'A-1', '03 07:00', '03 08:00', { draws: ['load 1'] });
    apply(book, 'A-2', '03 09:00', '03 10:00', { draws: ['load 1'], on: [{ fieldId: idOf('South 1') }] });
    const names = ['T-14', 'load 1', 'A-1', 'A-2', 'North 4', 'South 1', 'carrots', 'beets', 'kale'];
    const found = steps(book, 'T-14', names).slice(2);
    expect(found.filter((step) => !step.includes('planting'))).toEqual([
      'draw load 1 → application A-1 200 L',
      'application A-1 → field North 4 200 L',
      'draw load 1 → application A-2 200 L',
      'application A-2 → field South 1 200 L',
    ]);
    expect(found.filter((step) => step.includes('planting')).sort()).toEqual([
      'application A-1 → planting beets',
      'application A-1 → planting carrots',
      'application A-2 → planting kale 200 L',
    ]);
  });

  it('a lot that nobody described is told in the unit it was written in', () => {
    const book = farm();
    brew(book);
    put(book, 'T-14', '02 06:10', 'late kelp', 2);
    expect(steps(book, 'T-14', ['T-14', 'late kelp'])).toContain('lot late kelp → batch T-14 2 [lb_av]');
  });
});

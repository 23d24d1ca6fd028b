import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { Memo, Readable } from './memo.ts';

describe('what is kept until something it was read from has changed', () => {
  const step = fc.record({
    /** Views asked for, each of which reads these cells if it has to be folded anew. */
    asked: fc.uniqueArray(fc.nat(19), { maxLength: 20 }),
    cells: fc.uniqueArray(fc.nat(3), { maxLength: 4 }),
    changes: fc.nat(3),
  });
  it('forgets exactly those views that read it when they were folded last, one or many', () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 12 }), (steps) => {
        const memo = new Memo();
        const cells = Array.from({ length: 4 }, () => new Readable());
        const kept = new Map<string, readonly number[]>();
        let reading: readonly number[] = [];
        const view = memo.view('view', (id) => {
          for (const cell of cells.filter((_, i) => reading.includes(i))) memo.read(cell);
          kept.set(id, reading);
        });
        for (const { asked, cells: read, changes } of steps) {
          reading = read;
          for (const id of asked) view(String(id));
          const readers = [...kept].filter(([, found]) => found.includes(changes)).map(([id]) => id);
          const gone = [...memo.changed(cells.slice(changes, changes + 1))].map(({ id }) => id);
          expect(gone.sort()).toEqual(readers.sort());
          for (const id of readers) kept.delete(id);
        }
      }),
    );
  });
});

import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { CurrentRecords, momentOf } from './current.ts';
import type { LogRecord } from './records/record.ts';
import { Book, idOf, litresOf } from './testing/book.ts';

function reading(book: Book, mgPerL: number, at = '03 06:00') {
  return book.write('batch.oxygenMeasured', at, {
    batchId: idOf('T-14'),
    dissolvedOxygen: { value: mgPerL, unit: 'mg/L' },
  });
}
const oxygen = (mgPerL: number) => ({ batchId: idOf('T-14'), dissolvedOxygen: { value: mgPerL, unit: 'mg/L' } });

function current(records: readonly LogRecord[], id: string) {
  const all = new CurrentRecords();
  for (const record of records) all.add(record);
  return all.current(id);
}

describe('the moment of a written time', () => {
  it('is that instant alone where nothing is said of how sure it is, else so many minutes either way', () => {
    const at = Date.parse('2026-06-03T06:00:00Z');
    expect(momentOf('2026-06-03T01:00:00-05:00')).toEqual({ at, from: at, to: at });
    expect(momentOf('2026-06-03T06:00:00Z', 15)).toEqual({ at, from: at - 900_000, to: at + 900_000 });
  });
});

describe('a corrected record', () => {
  it('shows the corrected data, keeps time and person, and has what was written before', () => {
    const book = new Book();
    const first = reading(book, 74);
    const amendment = book.amend(first, '03 06:05', oxygen(7.4));
    const now = current(book.records, first.id);
    expect(now?.state).toBe('amended');
    expect(now?.data).toEqual(oxygen(7.4));
    expect(now?.occurredAt).toBe(first.occurredAt);
    expect(now?.history.map((each) => [each.kind, each.inForce])).toEqual([
      ['original', false],
      ['amended', true],
    ]);
    expect(now?.history[1]?.recordId).toBe(amendment.id);
  });

  it('takes the corrected time where the amendment names one', () => {
    const book = new Book();
    const first = reading(book, 7.4);
    book.amend(first, '03 06:05', oxygen(7.4), { occurredAt: '02 18:00' });
    expect(current(book.records, first.id)?.at.at).toBe(Date.parse('2026-06-02T18:00:00Z'));
  });

  it('stays as unsure of its time as it was, where the amendment does not say', () => {
    const book = new Book();
    const first = book.write('batch.oxygenMeasured', '03 06:00', oxygen(74), { plusMinusMinutes: 30 });
    book.amend(first, '03 06:05', oxygen(7.4));
    const [from, to] = [Date.parse('2026-06-03T05:30:00Z'), Date.parse('2026-06-03T06:30:00Z')];
    expect(current(book.records, first.id)?.at).toMatchObject({ from, to });
  });

  it('of two amendments the later in order counts, whichever arrived first', () => {
    const book = new Book();
    const first = reading(book, 74);
    book.amend(first, '03 09:00', oxygen(7.5));
    book.amend(first, '03 08:00', oxygen(7.4));
    expect(current(book.records, first.id)?.data).toEqual(oxygen(7.5));
    expect(current([...book.records].reverse(), first.id)?.data).toEqual(oxygen(7.5));
  });

  it('a strike outranks a later amendment, until it is itself struck', () => {
    const book = new Book();
    const first = reading(book, 74);
    const strike = book.strike(first, '03 07:00');
    book.amend(first, '03 08:00', oxygen(7.4));
    expect(current(book.records, first.id)?.state).toBe('struck');
    book.strike(strike, '03 09:00');
    expect(current(book.records, first.id)).toMatchObject({ state: 'amended', data: oxygen(7.4) });
  });

  it('a strike of a strike counts even where its clock was behind', () => {
    const book = new Book();
    const first = reading(book, 7.4);
    const strike = book.strike(first, '03 07:00');
    book.strike(strike, '03 06:30');
    expect(current(book.records, first.id)?.state).toBe('current');
  });

  it('a strike turned to another record strikes that one, and lets go of the first', () => {
    const book = new Book();
    const first = reading(book, 7.4);
    const second = reading(book, 6.9, '03 06:30');
    const strike = book.strike(first, '03 07:00');
    book.amend(strike, '03 08:00', { recordId: second.id, type: second.type, reason: 'wrong tank' });
    expect(current(book.records, first.id)?.state).toBe('current');
    expect(current(book.records, second.id)?.state).toBe('struck');
  });

  it('an amendment of an amendment counts in its place', () => {
    const book = new Book();
    const first = reading(book, 74);
    const amendment = book.amend(first, '03 07:00', oxygen(7.5));
    book.amend(amendment, '03 08:00', { ...amendment.data, data: oxygen(7.6) });
    expect(current(book.records, first.id)?.data).toEqual(oxygen(7.6));
  });

  it('an amendment that names another type or version has no effect', () => {
    const book = new Book();
    const first = reading(book, 7.4);
    const base = { recordId: first.id, reason: 'slip' };
    book.write('record.amended', '03 07:00', {
      ...base,
      type: 'batch.lost',
      version: 1,
      data: { batchId: idOf('T-14'), volume: litresOf(3), cause: 'foam' },
    });
    book.write('record.struck', '03 07:00', { ...base, type: 'batch.lost' });
    expect(current(book.records, first.id)).toMatchObject({ state: 'current', history: [] });
  });

  it('a signature is never struck', () => {
    const book = new Book();
    const review = book.write('batch.reviewed', '04 08:00', {
      batchId: idOf('T-14'),
      throughSeq: 3,
      meaning: 'reviewed',
      statement: 'I have read these records.',
    });
    book.strike(review, '04 09:00');
    expect(current(book.records, review.id)?.state).toBe('current');
  });

  it('two strikes that name each other: the later in order stands, the earlier is struck', () => {
    const book = new Book();
    const [earlier, later] = [idOf('earlier strike'), idOf('later strike')];
    book.write('record.struck', '03 07:00', { recordId: later, type: 'record.struck', reason: 'a' }, { id: earlier });
    book.write('record.struck', '03 08:00', { recordId: earlier, type: 'record.struck', reason: 'b' }, { id: later });
    for (const records of [book.records, [...book.records].reverse()]) {
      expect(current(records, earlier)?.state).toBe('struck');
      expect(current(records, later)?.state).toBe('current');
    }
  });

  it('a strike of itself has no effect', () => {
    const book = new Book();
    const id = idOf('odd strike');
    book.write('record.struck', '03 07:00', { recordId: id, type: 'record.struck', reason: 'a' }, { id });
    expect(current(book.records, id)?.state).toBe('current');
  });

  it('keeps how sure the corrected time is, and tells the strike in force from the one outranked', () => {
    const book = new Book();
    const first = reading(book, 7.4);
    const one = book.strike(first, '03 07:00');
    const two = book.strike(first, '03 08:00');
    const now = current(book.records, first.id);
    expect(now?.history.map((each) => [each.recordId, each.kind, each.inForce])).toEqual([
      [first.id, 'original', false],
      [one.id, 'struck', false],
      [two.id, 'struck', true],
    ]);
    expect(now?.history.map((each) => each.reason)).toEqual([undefined, 'wrong tank', 'wrong tank']);
    expect(momentOf('2026-06-03T06:00:00Z', 30)).toEqual({
      at: Date.parse('2026-06-03T06:00:00Z'),
      from: Date.parse('2026-06-03T05:30:00Z'),
      to: Date.parse('2026-06-03T06:30:00Z'),
    });
  });

  it('a record taken back leaves everything as though it had never come, and says what may have changed', () => {
    const book = new Book();
    const first = reading(book, 74);
    const second = reading(book, 6.9, '03 06:30');
    const amendment = book.amend(first, '03 07:00', oxygen(7.4));
    const strike = book.strike(amendment, '03 08:00');
    // The strike turned to the second reading, and back.
    book.amend(strike, '03 09:00', { recordId: second.id, type: second.type, reason: 'wrong one' });
    book.amend(strike, '03 10:00', { recordId: amendment.id, type: amendment.type, reason: 'right at first' });
    for (const gone of book.records) {
      const all = new CurrentRecords();
      for (const record of book.records) all.add(record);
      const before = book.records.map(({ id }) => JSON.stringify(all.current(id)));
      const touched = new Set(all.remove(gone.id));
      const rest = book.records.filter((record) => record !== gone);
      for (const [i, { id }] of book.records.entries()) {
        expect(all.current(id)).toEqual(current(rest, id));
        if (JSON.stringify(all.current(id)) !== before[i]) expect(touched).toContain(id);
      }
      expect([...all.remove(gone.id)]).toEqual([]);
      // Brought in again it stands as before; a second time changes nothing.
      expect(new Set(all.add(gone))).toContain(gone.id);
      expect([...all.add(gone)]).toEqual([]);
      expect(book.records.map(({ id }) => JSON.stringify(all.current(id)))).toEqual(before);
    }
  });

  it('two corrections that name the same record: one taken back, the other still counts', () => {
    const book = new Book();
    const first = reading(book, 74);
    const amendment = book.amend(first, '03 07:00', oxygen(7.4));
    const same = book.amend(first, '03 08:00', oxygen(7.5));
    const all = new CurrentRecords();
    for (const record of book.records) all.add(record);
    all.remove(same.id);
    expect(all.current(first.id)?.data).toEqual(oxygen(7.4));
    all.remove(amendment.id);
    expect(all.current(first.id)).toMatchObject({ state: 'current', data: oxygen(74) });
    expect(all.written(amendment.id)).toBeUndefined();
  });

  it('an amendment of an amendment taken back: the first counts again as it was written', () => {
    const book = new Book();
    const first = reading(book, 74);
    const amendment = book.amend(first, '03 07:00', oxygen(7.4));
    const second = book.amend(amendment, '03 08:00', { ...amendment.data, data: oxygen(7.5) });
    const all = new CurrentRecords();
    for (const record of book.records) all.add(record);
    expect(all.current(first.id)?.data).toEqual(oxygen(7.5));
    all.remove(second.id);
    expect(all.current(first.id)?.data).toEqual(oxygen(7.4));
  });

  it('a strike that was turned against its own striker, and is turned no more, is struck again', () => {
    const book = new Book();
    const first = reading(book, 7.4);
    const strike = book.strike(first, '03 08:00');
    // By a clock that was behind.
    const answer = book.strike(strike, '03 07:00');
    const turned = book.amend(strike, '03 09:00', { recordId: answer.id, type: answer.type, reason: 'r' });
    const all = new CurrentRecords();
    for (const record of book.records) all.add(record);
    all.remove(turned.id);
    expect(all.current(strike.id)?.state).toBe('struck');
    expect(all.current(first.id)?.state).toBe('current');
  });

  it('whatever corrects whatever, the order of arrival never matters, nor of taking back, and every change is announced', () => {
    const at = fc.integer({ min: 0, max: 3 }).map((minute) => `2026-06-03T06:0${String(minute)}:00Z`);
    const step = fc.record({ amends: fc.boolean(), target: fc.nat(9), at, nested: fc.nat(9) });
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 9 }), fc.infiniteStream(fc.nat()), (steps, random) => {
        const book = new Book('ring');
        const target = (n: number) => idOf(`ring ${String(n % (steps.length + 2))}`);
        const typeOf = (n: number) => {
          const each = steps[(n % (steps.length + 2)) - 2];
          return each === undefined ? 'batch.oxygenMeasured' : each.amends ? 'record.amended' : 'record.struck';
        };
        reading(book, 7.4);
        reading(book, 6.9);
        for (const { amends, target: n, at: time, nested } of steps) {
          const base = { recordId: target(n), type: typeOf(n), reason: 'r' };
          const inner = { recordId: target(nested), type: typeOf(nested), reason: 'n' };
          const data =
            typeOf(n) === 'record.struck'
              ? inner
              : typeOf(n) === 'record.amended'
                ? { ...inner, version: 1, data: oxygen(5) }
                : oxygen(nested);
          if (amends) book.write('record.amended', time, { ...base, version: 1, data });
          else book.write('record.struck', time, base);
        }
        const forward = new CurrentRecords();
        const shown = new Map<string, string>();
        for (const record of book.records) {
          const touched = new Set(forward.add(record));
          for (const { id } of book.records) {
            const now = JSON.stringify(forward.current(id));
            if (shown.get(id) !== now) expect(touched).toContain(id);
            shown.set(id, now);
          }
        }
        const shuffled = book.records
          .map((record) => ({ record, key: random.next().value }))
          .sort((a, b) => a.key - b.key)
          .map((each) => each.record);
        for (const { id } of book.records) {
          expect(current(shuffled, id)).toEqual(forward.current(id));
        }
        // Taken back one after the other, in any order, each leaves what there would be without it.
        for (const gone of shuffled) {
          const touched = new Set(forward.remove(gone.id));
          const rest = book.records.filter(({ id }) => forward.written(id) !== undefined);
          for (const { id } of book.records) {
            const now = JSON.stringify(forward.current(id));
            expect(now).toBe(JSON.stringify(current(rest, id)));
            if (shown.get(id) !== now) expect(touched).toContain(id);
            shown.set(id, now);
          }
        }
      }),
      { numRuns: 300 },
    );
  });
});

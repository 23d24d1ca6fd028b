import { describe, expect, it } from '@jest/globals';
import { isTellable, say, tell } from './index.ts';

describe('a sentence put into a language', () => {
  it('writes dates, times and lengths of time as people say them', () => {
    const due = say('hold-maximum.due', {
      off: '2026-06-03T14:35',
      advised: '2026-06-03T20:35',
      end: '2026-06-03T22:35',
    });
    expect(tell(due, 'en')).toBe(
      'The last air was at 14:35 on 3 June 2026: apply by 20:35 on 3 June 2026, at the latest by 22:35 on 3 June 2026.',
    );
    expect(tell(due, 'es')).toBe(
      'El último aire fue a las 14:35 del 3 de junio de 2026: aplique antes de las 20:35 del 3 de junio de 2026, a más tardar a las 22:35 del 3 de junio de 2026.',
    );
    expect(tell(say('hours.exactly', { value: 9.2 }), 'es')).toBe('9 h 12 min');
    expect(tell(say('hours.exactly', { value: 168 }), 'en')).toBe('7 days');
    expect(tell(say('hours.exactly', { value: 168 }), 'es')).toBe('7 días');
    expect(tell(say('hours.exactly', { value: 167.99 }), 'es')).toBe('167 h 59 min');
    expect(tell(say('minutes.exactly', { value: 65 }), 'en')).toBe('1 h 5 min');
    // 13 min 10 s, as a phone's clock has it.
    expect(tell(say('min.exactly', { value: 13 + 1 / 6 }), 'en')).toBe('13 min');
    expect(tell(say('min.between', { least: 14.5, most: 16 }), 'es')).toBe('entre 14.5 min y 16 min');
    expect(tell(say('days.exactly', { value: 19.1319 }), 'es')).toBe('19.13 días');
  });

  it('says only the parts of a length of time that there are: hours, minutes, both, whole days', () => {
    const of = (hours: number) => tell(say('hours.exactly', { value: hours }), 'en');
    expect([0, 0.2, 59 / 60, 1, 1.5, 72, 167, 168, 191, 192].map(of)).toEqual([
      ...['0 min', '12 min', '59 min', '1 h', '1 h 30 min', '72 h', '167 h', '7 days', '7 days', '8 days'],
    ]);
  });

  it('agrees with a count: one reading, two readings', () => {
    expect(tell(say('common.moreReadings', { n: 1 }), 'en')).toBe('1 more reading is like it.');
    expect(tell(say('common.moreReadings', { n: 2 }), 'en')).toBe('2 more readings are like it.');
    expect(tell(say('common.moreReadings', { n: 1 }), 'es')).toBe('1 lectura más está igual.');
    expect(tell(say('common.moreReadings', { n: 2 }), 'es')).toBe('2 lecturas más están igual.');
  });

  it('puts parts into the same language, and leaves out what there is not', () => {
    const said = say('air-continuous.off', {
      minutes: say('minutes.justOver', { value: 60.1 }),
      stopped: '2026-12-01T00:05',
    });
    const over = say('air-continuous.over', { said, limit: 60, after: say('air-continuous.unchecked') });
    expect(tell(over, 'en')).toBe(
      'The air was off for just over 1 h from 00:05 on 1 December 2026; the limit is 1 h. Nobody checked oxygen or odour before the next draw.',
    );
    expect(tell(over, 'es')).toBe(
      'El aire estuvo apagado apenas más de 1 h desde las 00:05 del 1 de diciembre de 2026; el límite es 1 h. Nadie revisó el oxígeno o el olor antes de la siguiente carga.',
    );
    expect(tell(say('air-continuous.over', { said, limit: 60, after: null }), 'en')).toMatch(/the limit is 1 h\.$/);
  });

  it('lists: commas, semicolons, the last one after "and"', () => {
    const names = (...all: string[]) => tell(say('treatment.names', { names: all }), 'en');
    expect([names('molasses'), names('molasses', 'compost'), names('molasses', 'kelp', 'compost')]).toEqual([
      'molasses',
      'molasses and compost',
      'molasses, kelp and compost',
    ]);
    expect(tell(say('treatment.names', { names: ['melaza', 'compost'] }), 'es')).toBe('melaza y compost');
    const open = say('treatment-status.open', {
      because: [say('treatment.nutrient'), say('treatment.noTest', { code: 'W1' })],
    });
    expect(tell(open, 'en')).toBe(
      'Whether it counts as treated is open: whether a nutrient was added is not known; no current test of its water (W1) is there. Until then keep it off the crop.',
    );
  });

  it('survives JSON, as phones keep it', () => {
    const said = say('record-complete.missing', { missing: [say('record-complete.who'), say('record-complete.lot')] });
    const kept: typeof said = JSON.parse(JSON.stringify(said));
    expect(tell(kept, 'es')).toBe('Sin anotar: quién lo aplicó, un lote de insumo que entró en el té.');
  });

  it('knows a sentence of a later version when it sees one, wherever it stands', () => {
    expect(isTellable(say('common.noFood'))).toBe(true);
    expect(isTellable({ key: 'common.fromTheFuture' })).toBe(false);
    expect(isTellable(undefined)).toBe(false);
    expect(isTellable({ key: 'constructor' })).toBe(false);
    expect(isTellable({ key: 'common.stop', with: { said: { key: 'common.fromTheFuture' } } })).toBe(false);
    expect(isTellable({ key: 'record-complete.missing', with: { missing: ['x', { key: 'no such' }] } })).toBe(false);
    expect(isTellable(say('treatment.names', { names: ['molasses', 'kelp'] }))).toBe(true);
    expect(isTellable({ key: 'record-complete.missing', with: { missing: [{ key: 'no such' }] } })).toBe(false);
    expect(() => tell({ key: 'common.fromTheFuture' }, 'en')).toThrow(RangeError);
  });
});

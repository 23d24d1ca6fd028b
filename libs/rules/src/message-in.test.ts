import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { catalogue, deadlinesOf, dueIn, evaluate, messageIn, titleIn } from './index.ts';
import { drawOutcomes, outcomeOf } from './testing/verdicts.ts';
import { englishLeft } from './testing/english-left.ts';
import { instant, ordinary } from './testing/season.ts';
import { randomSeason } from './testing/random-season.ts';

const now = instant('2026-06-20 12:00');

describe('what the rules say, in Spanish', () => {
  it('tea held too long: 9 h 12 min after its last air, limit 8 h', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .airOff('06-03 07:00')
      .applied('A-14', '06-03 15:00', '06-03 16:12');
    const [held] = drawOutcomes(season.season(), 'hold-maximum', 'T-14');
    if (held === undefined) throw new Error('nothing was said');
    expect(messageIn(held, 'en')).toBe(held.message);
    expect(messageIn(held, 'es')).toBe(
      'Fuera de su límite. Se aplicó 9 h 12 min después de su último aire a las 07:00 del 3 de junio de 2026; el límite es 8 h.',
    );
    expect(titleIn(held, 'es')).toBe('Aplicado pronto después de apagar el aire');
  });

  it("a rule's own word stands in front", () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'C-1');
    season.add('lot.recalled', '06-05 08:00', { lotId: season.idOf('C-1'), reason: 'notice' });
    const recalled = outcomeOf(season.season(), 'input-recalled', 'C-1');
    expect(messageIn(recalled, 'es')).toMatch(/^Retirado\. El lote C-1 fue retirado por aviso/);
    expect(messageIn(recalled, 'en')).toMatch(/^Recalled\. Lot C-1 was recalled/);
  });

  it('a sentence of a later version of the rules stays as it came', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'C-1');
    const outcome = outcomeOf(season.season(), 'odour-sound', 'T-14');
    expect(messageIn({ ...outcome, message: 'As it came.', said: { key: 'odour-sound.later' } }, 'es')).toBe(
      'As it came.',
    );
  });

  it('every rule has a Spanish title of its own', () => {
    const spanish = catalogue.map((rule) => titleIn({ ruleId: rule.id, title: rule.title }, 'es'));
    expect(spanish.filter((title, i) => title === catalogue[i]?.title)).toEqual([]);
    expect(new Set(spanish).size).toBe(catalogue.length);
    expect(titleIn({ ruleId: 'of another version', title: 'As given' }, 'es')).toBe('As given');
  });

  it('no English is left, whatever happened', () => {
    fc.assert(
      fc.property(randomSeason, (season) => {
        const open = season.season();
        expect(englishLeft(open, evaluate(open, now))).toEqual([]);
        expect(englishLeft(open, evaluate(open, instant('2026-06-04 12:00')))).toEqual([]);
        for (const { what } of deadlinesOf(open, instant('2026-06-04 12:00'))) expect(dueIn(what, 'es')).not.toBe(what);
      }),
      { numRuns: 60 },
    );
  });
});

describe('what is due, in Spanish', () => {
  it('by its English words', () => {
    expect(dueIn('record oxygen', 'en')).toBe('record oxygen');
    expect(dueIn('record oxygen', 'es')).toBe('anote el oxígeno');
    expect(dueIn("answer the certifier's condition C-12 (b)", 'es')).toBe(
      'conteste la condición C-12 (b) de la certificadora',
    );
    expect(dueIn('add Kelp meal, molasses', 'es')).toBe('ponga Kelp meal, molasses');
    expect(dueIn('add the first ingredient from this time on', 'es')).toBe(
      'ponga el primer ingrediente desde esta hora',
    );
    expect(dueIn('of a later version', 'es')).toBe('of a later version');
  });
});

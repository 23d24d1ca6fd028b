import { describe, expect, it } from '@jest/globals';
import type { Answers, Field } from './forms/index.ts';
import type { Unfinished } from './typed.ts';
import {
  answersAgain,
  answersGiven,
  entriesGiven,
  stillMeant,
  textsAgain,
  unfinishedId,
  whenItWas,
} from './unfinished.ts';
import { instantOfWhen, whenNow } from './when.ts';

const minute = 60_000;
const typedAt = Date.parse('2026-06-03T14:05:20-05:00');
const begun: Unfinished = { id: 'x', keptAt: typedAt, answers: {}, when: whenNow, who: null, photos: [] };

describe('a form that was begun and comes back', () => {
  it('has the time at which it was typed, not that at which it comes back', () => {
    const again = whenItWas(begun);
    expect(instantOfWhen(again, typedAt + 90 * minute)).toBe(typedAt);
    const agoThen = whenItWas({ ...begun, when: { ...whenNow, kind: 'ago', value: 15, plusMinus: 5 } });
    expect(instantOfWhen(agoThen, typedAt + 90 * minute)).toBe(typedAt - 15 * minute);
    expect(agoThen.plusMinus).toBe(5);
  });

  it('is meant for a day and no longer', () => {
    expect(stillMeant(begun, typedAt + 24 * 60 * minute - 1)).toBe(true);
    expect(stillMeant(begun, typedAt + 24 * 60 * minute)).toBe(false);
  });

  it('has what a person gave; the rest is guessed anew, and what is no longer offered is left out', () => {
    const fields: readonly Field[] = [
      { kind: 'amount', name: 'dissolvedOxygen', label: 'Oxygen', units: ['mg/L'] },
      { kind: 'pick', name: 'lotId', label: 'Lot', options: [{ value: 'lot-2', label: 'Lot 2' }] },
      { kind: 'pick', name: 'instrumentId', label: 'Meter', options: [{ value: 'new', label: 'New meter' }] },
    ];
    const before: Answers = {
      dissolvedOxygen: { kind: 'amount', text: '', unit: 'mg/L' },
      instrumentId: { kind: 'pick', chosen: ['old'] },
    };
    const typed: Answers = {
      ...before,
      dissolvedOxygen: { kind: 'amount', text: '7', unit: 'mg/L' },
      lotId: { kind: 'pick', chosen: ['lot-1'] },
      notes: { kind: 'text', text: 'of a field that the form no longer has' },
    };
    const given = answersGiven(typed, before);
    expect(Object.keys(given).sort()).toEqual(['dissolvedOxygen', 'lotId', 'notes']);
    const first: Answers = { ...before, instrumentId: { kind: 'pick', chosen: ['new'] } };
    expect(answersAgain(fields, first, given)).toEqual({
      dissolvedOxygen: { kind: 'amount', text: '7', unit: 'mg/L' },
      instrumentId: { kind: 'pick', chosen: ['new'] },
    });
  });

  it('of texts has those that were written, and no entry that the form does not have', () => {
    const first = { code: '', unit: '[lb_av]', material: 'worm compost' };
    const kept = entriesGiven({ ...first, code: 'WC-9' }, first);
    expect(kept).toEqual({ code: 'WC-9' });
    expect(textsAgain({ ...first, material: 'kelp' }, { ...kept, unit: 7, gone: 'x' })).toEqual({
      ...{ code: 'WC-9', unit: '[lb_av]', material: 'kelp' },
    });
  });

  it('belongs to one operation, one person of a shared phone and one form of one batch', () => {
    const ids = [
      unfinishedId('op-1', '', '["b","oxygen"]'),
      unfinishedId('op-2', '', '["b","oxygen"]'),
      unfinishedId('op-1', 'ann', '["b","oxygen"]'),
      unfinishedId('op-1', '', '["b","fill"]'),
    ];
    expect(new Set(ids).size).toBe(4);
  });
});

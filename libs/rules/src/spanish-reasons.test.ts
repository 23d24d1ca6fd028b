import { describe, expect, it } from '@jest/globals';
import { catalogue, reasonIn } from './index.ts';
import { spanishReasons } from './spanish-reasons.ts';

describe('the reasons in Spanish', () => {
  it('are those of the rules there are, no more and no fewer', () => {
    expect(Object.keys(spanishReasons).sort()).toEqual(catalogue.map(({ id }) => id).sort());
  });
  it('are told in Spanish, in English the rule’s own words', () => {
    const [rule] = catalogue;
    const [ruleId = '', reason = ''] = [rule?.id, rule?.reason];
    expect(reasonIn(ruleId, reason, 'es')).toBe(spanishReasons[ruleId]);
    expect(reasonIn(ruleId, reason, 'en')).toBe(reason);
    expect(reasonIn('a rule of a later version', 'Why.', 'es')).toBe('Why.');
  });
  it.each(catalogue.map(({ id, reason }) => [id, reason]))('%s: as many sentences, the same figures', (id, reason) => {
    const told = spanishReasons[id] ?? '';
    const sentences = (text: string) => text.match(/[.!?](\s|$)/g)?.length;
    // "E. coli" ends no sentence in either language.
    expect(sentences(told)).toBe(sentences(reason));
    expect(told.match(/\d+/g)).toEqual(reason.match(/\d+/g));
  });
});

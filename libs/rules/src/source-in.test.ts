import { describe, expect, it } from '@jest/globals';
import { catalogue } from './index.ts';
import { sourceIn } from './source-in.ts';

describe('what a rule stands on, in Spanish', () => {
  const english = new Set(
    'the and of read from common practice source memory as with for in both days hours copy an'.split(' '),
  );
  /** Names of works and offices, and an inch's symbol, are the same in both languages. */
  const names = /USDA Forest Service|Compost Tea Task Force|J\. Water Supply AQUA|Basu & De Souza|6 in bajo/g;
  const wordsOf = (text: string): string[] => text.toLowerCase().split(/[^\p{L}]+/u);
  it.each(catalogue.map(({ id, citation }) => [id, citation]))('%s', (_, citation) => {
    const told = sourceIn(citation, 'es');
    expect(wordsOf(told.replace(names, '')).filter((word) => english.has(word))).toEqual([]);
    expect(sourceIn(citation, 'en')).toBe(citation);
    // Sections, dates and figures are those of the English text, in their order.
    expect(told.match(/\d+/g)).toEqual(citation.match(/\d+/g));
  });
  it('a text of the operation’s own stays as written', () => {
    expect(sourceIn('Letter 4, page 2', 'es')).toBe('Letter 4, page 2');
  });
});

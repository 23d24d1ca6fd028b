import { describe, expect, it } from '@jest/globals';
import { plainFigure, writtenFigure } from './figure.ts';

describe('a figure at the desk', () => {
  it.each([
    ['2,5', 'es', '2.5'],
    ['2,5', 'en', '2.5'],
    ['2.5', 'es', '2.5'],
    ['275', 'en', '275'],
    [' 0,125 ', 'en', '0.125'],
    ['1.234', 'en', '1.234'],
    ['1,234', 'es', '1.234'],
    ['1234,567', 'en', '1234.567'],
    [',5', 'es', '0.5'],
    ['-34', 'en', '-34'],
    ['-.5', 'en', '-0.5'],
  ] as const)('%s in %s is %s', (text, language, plain) => {
    expect(plainFigure(text, language)).toBe(plain);
  });
  it.each([
    ['1,000', 'en'],
    ['1.000', 'es'],
    ['-1,000', 'en'],
    ['1,000,000', 'en'],
    ['1,000.5', 'en'],
    ['about 5', 'en'],
    ['5 gal', 'en'],
    ['2,', 'es'],
    ['-', 'en'],
    ['', 'en'],
  ] as const)('%s in %s is not taken for one', (text, language) => {
    expect(plainFigure(text, language)).toBeNull();
  });
  it('is shown with the sign of the language', () => {
    expect([writtenFigure('2.5', 'es'), writtenFigure('2.5', 'en')]).toEqual(['2,5', '2.5']);
  });
});

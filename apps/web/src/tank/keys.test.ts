import { describe, expect, it } from '@jest/globals';
import { pressed } from './keys.ts';

const typed = (keys: string, from = ''): string => [...keys].reduce(pressed, from);

describe('the keys of a figure', () => {
  it.each([
    ['7.4', '7.4'],
    ['.5', '0.5'],
    ['07', '7'],
    ['7..4', '7.4'],
    ['14.⌫', '14'],
    ['⌫', ''],
  ])('%s is read as %s', (keys, text) => {
    expect(typed(keys)).toBe(text);
  });
  it('take no more figures than any meter shows', () => {
    expect(typed('1234567890123')).toBe('123456789');
  });
});

import { describe, expect, it } from '@jest/globals';
import { initialsOf } from './initials.ts';

// Common practice, no source.
describe('initials', () => {
  it.each([
    ['Tobin Quay', 'TQ'],
    ['ines harrow', 'IH'],
    ['  Sefa  de la Lind ', 'SL'],
    ['Ángel Ñúñez', 'ÁÑ'],
    ['Tobin', 'T'],
    ['', ''],
  ])('of “%s” are “%s”', (name, initials) => expect(initialsOf(name)).toBe(initials));
});

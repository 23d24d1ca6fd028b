import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from '@jest/globals';
import { figureName, figureWord } from './figure-names.ts';

const folder = new URL('./rules/', import.meta.url);

it('every figure that a rule compares has a name in both languages', () => {
  const sources = readdirSync(folder).filter((name) => !name.endsWith('.test.ts'));
  const names = sources.flatMap((name) =>
    [...readFileSync(new URL(name, folder), 'utf8').matchAll(/(?:\bname: |spanFigure\()'([a-zA-Z]+)'/g)].map(
      ([, figure]) => figure ?? '',
    ),
  );
  expect(names).toContain('holdHours');
  // A name without words is its own name taken apart, the same in both languages.
  expect([...new Set(names)].filter((name) => figureName(name, 'es') === figureName(name, 'en'))).toEqual([]);
});

it('a value that is a word of the records is said in words; a day stays a day', () => {
  expect(figureWord('noAnimalOrigin', 'en')).toBe('nothing of animal origin');
  expect(figureWord('untreated', 'es')).toBe('sin tratar');
  expect(figureWord('2026-04-28', 'es')).toBe('2026-04-28');
});

it('what somebody named stays as they wrote it', () => {
  expect(figureName('Kelp meal, WC-1', 'en')).toBe('Kelp meal, WC-1');
  expect(figureName('longestGapHours', 'en')).toBe('longest gap hours');
});

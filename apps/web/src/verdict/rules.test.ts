import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from '@jest/globals';
import { catalogue } from '@furrowmark/rules';
import { figureName, ruleTitle } from './rules.ts';

const folder = new URL('../../../../libs/rules/src/rules/', import.meta.url);

describe('the rules in Spanish', () => {
  it.each(catalogue.map(({ id, title }) => [id, title]))('%s has a title of its own', (id, title) => {
    expect(ruleTitle(id, title, 'es')).not.toBe(title);
    expect(ruleTitle(id, title, 'en')).toBe(title);
  });
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
});

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from '@jest/globals';

const src = new URL('..', import.meta.url);

/** Classes that a file styles by themselves, wherever they stand: `.amount {`, not `.lot .amount {`. */
function alone(css: string): readonly string[] {
  const plain = css.replaceAll(/\/\*.*?\*\//gs, '').replaceAll(/@media[^{]*\{/g, '');
  const selectors = [...plain.matchAll(/([^{}]*)\{/g)].flatMap(([, list = '']) => list.split(','));
  return selectors.flatMap((each) => /^\s*\.([\w-]+)\s*$/.exec(each)?.[1] ?? []);
}

describe('classes', () => {
  // A page's styles stay when another page is opened: what both style looks otherwise than on the first visit.
  it('are styled by themselves in one file only, or in the theme', () => {
    const files = readdirSync(src, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.css'));
    const styled = files
      .filter((name) => !name.startsWith('theme/'))
      .flatMap((name) => [...new Set(alone(readFileSync(new URL(name, src), 'utf8')))].map((of) => ({ of, name })));
    const twice = Object.entries(Object.groupBy(styled, ({ of }) => of)).filter(([, in_ = []]) => in_.length > 1);
    expect(styled.length).toBeGreaterThan(100);
    expect(twice.map(([of, in_ = []]) => `${of}: ${in_.map(({ name }) => name).join(', ')}`)).toEqual([]);
  });
});

import { describe, expect, it } from '@jest/globals';
import { batchWords } from '../batch/words.ts';
import { recordWords } from '../records/words.ts';
import { syncWords } from '../sync/words.ts';
import { tankWords } from '../tank/words.ts';
import { shell } from './shell.ts';

const catalogues = { shell, tankWords, batchWords, recordWords, syncWords };
/** Fills a phrase with its values, so that phrases and functions compare alike. */
const said = (entry: unknown): string =>
  typeof entry === 'function' ? String(Reflect.apply(entry, undefined, [2, 'x', 'y'])) : String(entry);
/** The same in both languages, rightly. */
const alike = new Set(['appName', 'f_pH', 'total', 'no', 'whenMinus', 'about', 'v_aeratedTea', 'unknown', 'back']);

describe.each(Object.entries(catalogues))('%s', (_name, { en, es }) => {
  it('has the same keys in both languages, none of them empty', () => {
    expect(Object.keys(es)).toEqual(Object.keys(en));
    for (const entry of [...Object.values(en), ...Object.values(es)]) expect(said(entry).trim()).not.toBe('');
  });
  it('says the same in Spanish with the values that English is given', () => {
    for (const [key, entry] of Object.entries(en)) {
      const other: unknown = Reflect.get(es, key);
      expect([key, typeof other]).toEqual([key, typeof entry]);
      if (typeof entry === 'function') {
        for (const value of ['x', 'y'].slice(0, Math.max(0, entry.length - 1))) {
          expect([key, said(other).includes(value)]).toEqual([key, said(entry).includes(value)]);
        }
      }
      if (!alike.has(key) && said(entry).length > 4) expect([key, said(other)]).not.toEqual([key, said(entry)]);
    }
  });
  it('never calls anything safe, compliant or passed', () => {
    const all = [...Object.values(en), ...Object.values(es)].map(said).join(' ');
    expect(all).not.toMatch(/\b(safe|compliant|compliance|segur[oa] para|conforme)\b/i);
  });
});

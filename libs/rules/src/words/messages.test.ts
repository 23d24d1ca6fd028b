import { describe, expect, it } from '@jest/globals';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Message } from './message.ts';
import { messages } from './messages/index.ts';
import { partsOf } from './tell.ts';

const all: readonly (readonly [string, Message])[] = Object.entries(messages);
const slots = (template: string): string[] =>
  partsOf(template)
    .flatMap((part) => (typeof part === 'string' || part.words !== null ? [] : [`${part.name}:${part.kind}`]))
    .sort();
const counted = (template: string): string[] =>
  partsOf(template).flatMap((part) => (typeof part === 'string' || part.words === null ? [] : [part.name]));

const source = join(import.meta.dirname, '..');
const sources = readdirSync(source, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.ts$/.test(name) && !/\.test\.ts$/.test(name) && !name.includes('messages'))
  .map((name) => readFileSync(join(source, name), 'utf8'))
  .join('\n');

describe('the catalogue of sentences', () => {
  it.each(all)('%s has both languages, with the same slots', (key, { en, es }) => {
    if (key !== 'common.nothing') expect([en.trim(), es.trim()]).not.toContain('');
    expect([...new Set(slots(es))]).toEqual([...new Set(slots(en))]);
    // A word that follows a count follows a count that the sentence also has as a figure.
    for (const name of [...counted(en), ...counted(es)]) expect(slots(en).join(' ')).toContain(`${name}:`);
  });

  it.each(all)('%s is said by some rule', (key) => {
    const [group = '', last = ''] = [key.slice(0, key.lastIndexOf('.')), key.slice(key.lastIndexOf('.') + 1)];
    // Some keys are put together: `word.broken.${basis}`, `${unit}.between`, `record.${type}`.
    const first = key.split('.')[0] ?? '';
    const found = [`'${key}'`, `\`${group}.\${`, `}.${last}\``, `\`${first}.\${`].some((text) =>
      sources.includes(text),
    );
    expect(found).toBe(true);
  });

  it.each(all)('%s leaves no gap before what brings its own', (_, { en, es }) => {
    expect(`${en} ${es}`).not.toMatch(/ {2}| \{\w+:more\}/);
  });

  it('never says that something is safe, compliant or passed, in neither language', () => {
    for (const [, { en, es }] of all) {
      expect(en).not.toMatch(/\b(safe|safely|compliant|compliance|pass|passes|passed|violation)\b/i);
      expect(es).not.toMatch(/\b(segur[oa]s?\s+para|inocu[oa]|conforme|aprobó|infracción)\b/i);
    }
  });

  it('has no English left in Spanish', () => {
    for (const [key, { es }] of all) {
      const words = partsOf(es).map((part) => (typeof part === 'string' ? part : (part.words ?? []).join(' ')));
      expect([key, words.join(' ').match(english)?.[0]]).toEqual([key, undefined]);
    }
  });
});

/** Words that English cannot do without and Spanish does not have. */
const english =
  /(?<![\p{L}-])(the|of|was|were|is|are|and|that|with|for|not|by|from|at|it|to|or|an|than|this|which|when)(?![\p{L}-])/iu;

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from '@jest/globals';
import { parse, simpleTraverse } from '@typescript-eslint/typescript-estree';
import { traceReason, traceSentences } from './trace-reasons.ts';

const folder = join(import.meta.dirname, '../../../domain/src/trace');
const sources = readdirSync(folder).filter((name) => !name.endsWith('.test.ts'));
/** What the sources of the trace say in words: three or more, with `Somebody` where one fills something in. */
const texts = sources.flatMap((source) => {
  const found: string[] = [];
  simpleTraverse(parse(readFileSync(join(folder, source), 'utf8')), {
    enter(node) {
      if (node.type === 'Literal' && typeof node.value === 'string') found.push(node.value);
      if (node.type === 'TemplateLiteral') found.push(node.quasis.map(({ value }) => value.cooked).join('Somebody'));
    },
  });
  return found.filter((text) => text.split(/[ ·]+/).filter(Boolean).length >= 3).map((text) => [source, text] as const);
});
/** Put together from two; told below. */
const inParts = new Set(['Somebody from the tank', 'tea Somebody: where they used it is in their records']);

describe('why a trace ended or is left open, in Spanish', () => {
  it.each(texts.filter(([, text]) => !inParts.has(text)))('%s: %s', (_, text) => {
    expect(traceReason('es', text)).not.toBe(text);
    expect(traceReason('en', text)).toBe(text);
  });

  it('is told for every kind of loss, and with the names as they were written', () => {
    expect(texts.length).toBeGreaterThan(25);
    for (const kind of ['lost', 'disposed', 'supplied'])
      expect(traceReason('es', `${kind} from the tank`)).toMatch(/ del tanque$/);
    expect(traceReason('es', 'tea supplied to the orchard next door: where they used it is in their records')).toBe(
      'té entregado a the orchard next door; dónde lo usaron está en sus registros',
    );
    const later = 'something that a later version says';
    expect(traceReason('es', later)).toBe(later);
  });

  it('fills in the same as in English', () => {
    const slots = (text: string): string[] => [...text.matchAll(/\{[^}]+\}/g)].map(([each]) => each).sort();
    for (const [en, es] of traceSentences) expect([en, slots(es)]).toEqual([en, slots(en)]);
  });
});

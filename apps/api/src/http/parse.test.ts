import { describe, expect, it } from '@jest/globals';
import { z } from 'zod';
import { bodyOf, queryOf, shapeOf } from './parse.ts';
import { ProblemAnswer } from './problem.ts';

const label = z.strictObject({ label: z.string() });
describe('texts of a request', () => {
  it.each(['a\0b', 'a\ud800'])('%j is refused, because no database keeps it', (text) => {
    expect(() => bodyOf(label, { label: text })).toThrow(ProblemAnswer);
    expect(() => queryOf(label, { label: text })).toThrow(ProblemAnswer);
    expect(shapeOf(label, { label: text })).toEqual({ label: text });
  });

  it('any other is taken as it came', () => {
    expect(bodyOf(label, { label: 'Größe 🧪' })).toEqual({ label: 'Größe 🧪' });
    expect(queryOf(label, { label: 'a b' })).toEqual({ label: 'a b' });
  });
});

import { describe, expect, it } from '@jest/globals';
import { dueText } from './dueText.ts';
import { tankWords } from './words.ts';

const nine = Date.parse('2026-05-04T13:00:00Z');
const told = (side: 'from' | 'by', seconds: number): string =>
  dueText(
    { form: 'airOn', at: nine, side, ruleId: null },
    nine - seconds * 1000,
    'America/New_York',
    'en',
    tankWords.en,
  )
    .split('·')
    .at(-1)
    ?.replaceAll('\u00A0', ' ')
    .trim() ?? '';

describe('when something is due', () => {
  it.each([
    ['by', 2 * 3600 + 600, '2 h 10 left'],
    ['by', 60, '1 min left'],
    ['by', 20, 'now'],
    ['by', 0, 'now'],
    ['by', -20, 'now'],
    ['by', -60, '1 min late'],
    ['from', 3 * 3600, 'in 3 h 00'],
    ['from', 20, 'now'],
    ['from', -600, 'now'],
  ] as const)('%s 09:00, %d s before: %s', (side, seconds, text) => {
    expect(told(side, seconds)).toBe(text);
  });
});

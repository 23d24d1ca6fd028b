import { describe, expect, it } from '@jest/globals';
import { arrayText } from './array-text.ts';

// PostgreSQL manual, 8.15.2 "Array Value Input" and 8.15.6 "Array Input and Output Syntax": elements between braces,
// parted by commas; an element with a brace, comma, quote, backslash or white space must be quoted.
describe('an array as PostgreSQL reads it', () => {
  it('joins numbers, ids and times', () => {
    expect(arrayText([])).toBe('{}');
    expect(arrayText([1, 20])).toBe('{1,20}');
    expect(arrayText(['2026-06-02T12:00:00.000Z', 'batch.opened'])).toBe('{2026-06-02T12:00:00.000Z,batch.opened}');
  });

  it.each(['a"b', 'a\\b', 'a b', 'a\nb', '{', 'a,b', '', 'NULL', 'null'])('refuses to write %j unquoted', (element) => {
    expect(() => arrayText(['x', element])).toThrow('quoted');
  });
});

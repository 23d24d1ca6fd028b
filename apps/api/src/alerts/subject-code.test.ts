import { describe, expect, it } from '@jest/globals';
import { subjectCode } from './subject-code.ts';

describe('what a letter calls a thing', () => {
  const id = '01976f00-0000-7000-8000-0000000000b1';

  it('is the code on it', () => {
    expect(subjectCode({ kind: 'batch', id, code: 'T-14' })).toBe('T-14');
  });

  it('is not a person’s name', () => {
    expect(subjectCode({ kind: 'person', id, code: 'Ines Halloran' })).toBe('01976f00');
  });
});

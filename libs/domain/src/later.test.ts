import { describe, expect, it } from '@jest/globals';
import { later } from './later.ts';

describe('what is made later', () => {
  it('is made when it is first asked for, and only once', () => {
    let made = 0;
    const thing = later(() => ({ number: (made += 1) }));
    expect(made).toBe(0);
    expect(thing()).toEqual({ number: 1 });
    expect(thing()).toBe(thing());
    expect(made).toBe(1);
  });
});

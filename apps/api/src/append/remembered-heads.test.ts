import { describe, expect, it } from '@jest/globals';
import type { Head } from '../log/index.ts';
import { RememberedHeads } from './remembered-heads.ts';

const head = (size: number): Head => ({
  readOnly: false,
  size,
  recordedAt: 0,
  frontier: Buffer.alloc(0),
  root: Buffer.alloc(32),
});

describe('where a log is remembered to stand', () => {
  it('is not known before the first append, and where the last append left it afterwards', () => {
    const heads = new RememberedHeads();
    expect(heads.guess('a')).toBeNull();
    heads.remember('a', head(1));
    heads.remember('a', head(2));
    expect(heads.guess('a')?.size).toBe(2);
    expect(heads.guess('b')).toBeNull();
  });

  it('is asked for a while after somebody else has appended in between, then trusted again', () => {
    const heads = new RememberedHeads();
    heads.remember('a', head(1));
    heads.wrong('a');
    for (let size = 5; size < 24; size += 1) {
      heads.remember('a', head(size));
      expect(heads.guess('a')).toBeNull();
    }
    heads.remember('a', head(24));
    expect(heads.guess('a')?.size).toBe(24);
  });
});

import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { Line } from './line.ts';

/** A log that takes numbers; what is written together is kept together. */
function logOf(refuse: (group: readonly number[]) => unknown = () => null) {
  const groups: number[][] = [];
  const write = async (group: readonly number[]): Promise<string[]> => {
    await new Promise(setImmediate);
    const reason = refuse(group);
    if (reason !== null) throw reason;
    groups.push([...group]);
    return group.map(String);
  };
  return { groups, write };
}

describe('the line before a log', () => {
  it('writes together what arrives together, and what arrives meanwhile as the next group', async () => {
    const { groups, write } = logOf();
    const line = new Line(write, 100, 1000);
    const first = [1, 2, 3].map((n) => line.join(n, 1));
    await new Promise(setImmediate);
    const second = [4, 5].map((n) => line.join(n, 1));
    expect(await Promise.all([...first, ...second])).toEqual(['1', '2', '3', '4', '5']);
    expect(groups).toEqual([
      [1, 2, 3],
      [4, 5],
    ]);
  });

  it('keeps groups within their size, a larger request alone', async () => {
    const { groups, write } = logOf();
    const line = new Line(write, 10, 1000);
    await Promise.all([line.join(1, 6), line.join(2, 4), line.join(3, 1), line.join(4, 50), line.join(5, 1)]);
    expect(groups).toEqual([[1, 2], [3], [4], [5]]);
  });

  it('takes no more than may wait, but always somebody', async () => {
    const { write } = logOf();
    const line = new Line(write, 10, 5);
    const large = line.join(1, 50);
    expect(line.join(2, 1)).toBeNull();
    expect(await large).toBe('1');
    expect(await line.join(3, 1)).toBe('3');
  });

  it('tries each alone where a group fails, so that only the one at fault fails', async () => {
    const { groups, write } = logOf((group) => (group.includes(2) ? new Error('cannot write 2') : null));
    const line = new Line(write, 100, 1000);
    const results = await Promise.allSettled([1, 2, 3].map((n) => line.join(n, 1)));
    expect(results.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'fulfilled']);
    expect(groups).toEqual([[1], [3]]);
  });

  it('does not try again where the connection is lost: what became of the group is not known', async () => {
    let tries = 0;
    const lost = Object.assign(new Error('terminating connection'), { code: '57P01' });
    const { write } = logOf(() => ((tries += 1), lost));
    const line = new Line(write, 100, 1000);
    const results = await Promise.allSettled([1, 2, 3].map((n) => line.join(n, 1)));
    expect(results.map(({ status }) => status)).toEqual(['rejected', 'rejected', 'rejected']);
    expect(tries).toBe(1);
  });

  it('answers everybody, at whatever moment they join', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.integer({ min: 0, max: 12 }), { minLength: 1, maxLength: 30 }), async (steps) => {
        const { write } = logOf();
        const line = new Line(write, 3, 1000);
        // Each joins a few steps after the one before was answered: around the moment at which the line runs empty.
        let answered = 0;
        for (const step of steps) {
          await line.join(answered, 1);
          for (let i = 0; i < step; i += 1) await null;
          answered += 1;
        }
        await line.drained();
        expect(answered).toBe(steps.length);
        expect(line.idle).toBe(true);
      }),
      { numRuns: 30, interruptAfterTimeLimit: 4_000, markInterruptAsFailure: true },
    );
  });
});

import { describe, expect, it } from '@jest/globals';
import { Together } from './together.ts';

const turn = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** Answers each number with its double, when told to; 13 is refused. */
function doubling() {
  const inquiries: number[][] = [];
  const open: (() => void)[] = [];
  const together = new Together<number, number>(async (numbers) => {
    inquiries.push([...numbers]);
    await new Promise<void>((resolve) => open.push(resolve));
    if (numbers.includes(13)) throw new Error('thirteen');
    return numbers.map((n) => 2 * n);
  });
  return { inquiries, open, together };
}

describe('questions asked together', () => {
  it('of one turn go in one inquiry, and each gets its own answer', async () => {
    const { inquiries, open, together } = doubling();
    const answers = [1, 2, 3].map((n) => together.ask(n));
    await turn();
    expect(inquiries).toEqual([[1, 2, 3]]);
    open.forEach((answer) => answer());
    expect(await Promise.all(answers)).toEqual([2, 4, 6]);
  });

  it('wait for one of two inquiries under way, and then go together', async () => {
    const { inquiries, open, together } = doubling();
    const answers: Promise<number>[] = [];
    for (let n = 1; n <= 5; n += 1) {
      answers.push(together.ask(n));
      await turn();
    }
    expect(inquiries).toEqual([[1], [2]]);
    open[0]?.();
    await answers[0];
    await turn();
    expect(inquiries).toEqual([[1], [2], [3, 4, 5]]);
    open.forEach((answer) => answer());
    expect(await Promise.all(answers)).toEqual([2, 4, 6, 8, 10]);
  });

  it('fail together, and the next are answered all the same', async () => {
    const { open, together } = doubling();
    const failing = Promise.allSettled([together.ask(1), together.ask(13)]);
    await turn();
    open.forEach((answer) => answer());
    expect((await failing).map(({ status }) => status)).toEqual(['rejected', 'rejected']);
    const next = together.ask(4);
    await turn();
    open.forEach((answer) => answer());
    expect(await next).toBe(8);
  });
});

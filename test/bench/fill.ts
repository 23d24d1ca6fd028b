import { season } from './records.ts';
import type { Served } from './served.ts';

const atOnce = 8;

/** Operations with so many records each, recorded through HTTP; tells on standard error how far it is. */
export async function fill(served: Served, operations: number, each: number): Promise<void> {
  const records = season(each);
  let left = operations;
  const one = async (): Promise<void> => {
    while (left > 0) {
      left -= 1;
      await served.operation(records);
      if (left % 100 === 0) console.error(`filled: ${operations - left} of ${operations} operations`);
    }
  };
  await Promise.all(Array.from({ length: atOnce }, one));
}

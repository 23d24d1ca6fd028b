/** How many of these, which are in order of time, came before an instant. */
export function countBefore<T>(all: readonly T[], instant: number, timeOf: (each: T) => number): number {
  let [from, to] = [0, all.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    const each = all[middle];
    if (each !== undefined && timeOf(each) < instant) from = middle + 1;
    else to = middle;
  }
  return from;
}

// What test files import in place of `@jest/globals` while mutants are tried: tests are collected, and run when asked.
export { expect } from 'expect';

/** Every test: the file it stands in, its name, what its file does before it, and what it does. */
export const tests = [];
const within = [];
let before = [];
let file = '';

/** Imports a test file and collects its tests. */
export async function collect(path, load) {
  file = path;
  before = [];
  await load();
}

export function describe(name, body) {
  within.push(name);
  const outer = before;
  before = [...outer];
  body();
  before = outer;
  within.pop();
}

export function it(name, run) {
  tests.push({ file, name: [...within, name].join(' › '), before, run });
}
export const test = it;

/** Done before each test, here: what it made may hold what a mutant before made wrong. */
export function beforeAll(run) {
  before.push(run);
}

/** One test for each row, as Jest has them: a row that is an array gives the arguments. */
const each = (what) => (rows) => (name, run) => {
  for (const [index, row] of rows.entries()) {
    what(`${name} (${index + 1})`, () => run(...(Array.isArray(row) ? row : [row])));
  }
};
it.each = each(it);
describe.each = each(describe);

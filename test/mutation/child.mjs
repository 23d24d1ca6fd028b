// One process in which mutants are tried: loads every test of the libraries with switched sources, then runs what it is
// asked to. The mutant named by `MUTANT` is on from before anything is loaded.
import { readFileSync } from 'node:fs';
import { registerHooks } from 'node:module';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { compiled } from './compiling.mjs';
import { switches } from './switches.mjs';

/** By path: the switched source, as compiled already by the process that asks. */
const sources = JSON.parse(readFileSync(process.env.SWITCHED, 'utf8'));

registerHooks({
  resolve(specifier, context, next) {
    if (specifier === '@jest/globals') return next('./collected.mjs', { ...context, parentURL: import.meta.url });
    return next(specifier, { ...context, conditions: ['source', ...context.conditions] });
  },
  load(url, context, next) {
    if (!url.startsWith('file:') || !url.endsWith('.ts')) return next(url, context);
    const path = fileURLToPath(url);
    const source = sources[path] ?? compiled(readFileSync(path, 'utf8'));
    return { format: 'module', source, shortCircuit: true };
  },
});

const atLoad = new Set();
switches.on = Number(process.env.MUTANT ?? '0');
switches.passed = switches.on === 0 ? atLoad : null;
let failed = null;
const { collect, tests } = await import('./collected.mjs');
try {
  // eslint-disable-next-line no-unsanitized/method -- the test files of this repository, listed by run.mjs
  for (const path of JSON.parse(process.env.TESTS)) await collect(path, () => import(pathToFileURL(path).href));
} catch (error) {
  failed = String(error);
}
switches.passed = null;

const held = async ({ before, run }) => {
  try {
    for (const each of before) await each();
    await run();
    return true;
  } catch {
    return false;
  }
};

process.on('message', async ({ mutant, which, survey }) => {
  if (survey) {
    const found = [];
    for (const test of tests) {
      const passed = new Set();
      switches.passed = passed;
      const began = performance.now();
      const ok = await held(test);
      switches.passed = null;
      found.push({ file: test.file, name: test.name, ok, took: performance.now() - began, passed: [...passed] });
    }
    process.send({ found, atLoad: [...atLoad] });
    return;
  }
  if (failed !== null) return process.send({ by: failed });
  const from = switches.on;
  switches.on = mutant;
  let by = null;
  for (const index of which) {
    if (await held(tests[index])) continue;
    by = index;
    break;
  }
  switches.on = from;
  // What a mutant left behind in what tests share must not tell of the next one.
  const spoilt = by !== null && from === 0 && !(await held(tests[by]));
  process.send({ by, spoilt });
});
process.send({ ready: tests.length, failed });

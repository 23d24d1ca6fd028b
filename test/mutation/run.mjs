// Changes one place of a rule or of the fold at a time and runs the tests that speak of it: a mutant that no test notices
// shows a test that is missing. Run from the top of the repository:
//   node test/mutation/run.mjs --of rules --sample 60 --seed 1
//   node test/mutation/run.mjs --of fold --sample 30 [--file libs/domain/src/fold/air.ts]
//   node test/mutation/run.mjs --of judging --sample 30 (what the rules share: engine, judging, words)
//   node test/mutation/run.mjs --of domain --sample 60 (records, quantities, calculations, calendar, trace)
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { mutantsOf } from './mutants.mjs';

const { values } = parseArgs({
  options: {
    of: { type: 'string', default: 'rules' },
    sample: { type: 'string', default: '60' },
    seed: { type: 'string', default: '1' },
    file: { type: 'string' },
    minutes: { type: 'string', default: '30' },
  },
});
const folders = {
  rules: 'libs/rules/src/rules',
  judging: 'libs/rules/src',
  fold: 'libs/domain/src/fold',
  domain: 'libs/domain/src',
};
const folder = folders[values.of];
if (folder === undefined) throw new Error(`--of is ${Object.keys(folders).join(' or ')}`);
/** Laws over many random seasons take long and are run with the suite; here the tests that name facts decide. */
const slow = /(laws|laws-of-corrections|long-season|document|catalogue|model)\.test\.ts$/;

const filesIn = (path) => readdirSync(path, { recursive: true }).map((name) => `${path}/${name}`);
const sources = filesIn(folder).filter(
  (name) =>
    name.endsWith('.ts') &&
    !/\.test\.ts$|\.d\.ts$|index\.ts$|\/testing\//.test(name) &&
    // The fold has a run of its own.
    !(values.of === 'domain' && name.includes('/fold/')) &&
    !(values.of === 'judging' && !/src\/(engine|judging|words)\//.test(name)),
);
const tests = filesIn(folder.split('/').slice(0, 3).join('/')).filter(
  (name) => name.endsWith('.test.ts') && !slow.test(name) && !name.includes('/dist/'),
);

/** A rule's tests are those that name it, the worked cases of every rule, and what each revision says; in the domain they are all of the folder's. */
function testsOf(path) {
  if (values.of === 'fold') return tests.filter((name) => name.startsWith(folder));
  if (values.of === 'domain') {
    const own = path.split('/').slice(0, 4).join('/');
    return tests.filter((name) => (own.endsWith('.ts') ? !/src\/.*\//.test(name) : name.startsWith(`${own}/`)));
  }
  // What rules share is noticed by any rule.
  if (values.of === 'judging') return tests;
  const id = path.slice(path.lastIndexOf('/') + 1, -'.ts'.length);
  return tests.filter(
    (name) =>
      name === path.replace('.ts', '.test.ts') ||
      name.endsWith('/every-rule.test.ts') ||
      name.endsWith('/src/revisions.test.ts') ||
      readFileSync(name, 'utf8').includes(`'${id}'`),
  );
}

/** A generator that gives the same numbers for the same seed (xorshift, 32 bits). */
function numbers(seed) {
  let x = (seed * 2654435761) >>> 0 || 1;
  return () => {
    x ^= x << 13;
    x >>>= 0;
    x ^= x >>> 17;
    x ^= x << 5;
    x >>>= 0;
    return x / 2 ** 32;
  };
}

const next = numbers(Number(values.seed));
const all = sources
  .filter((name) => values.file === undefined || name === values.file)
  .flatMap((name) => mutantsOf(resolve(name)).map((mutant) => ({ name, mutant, place: next() })))
  .sort((a, b) => a.place - b.place);
const sample = all.slice(0, Number(values.sample));
console.log(`${all.length} mutants of ${folder}; ${sample.length} tried`);

const run = (paths, mutant) =>
  spawnSync(
    process.execPath,
    [
      ...['--experimental-vm-modules', '--no-warnings', 'node_modules/jest/bin/jest.js'],
      ...['--config', 'test/mutation/jest.config.mjs', '--bail', '--silent', '--maxWorkers=1', '--testTimeout=20000'],
      ...['--runTestsByPath', ...paths],
    ],
    {
      env: { ...process.env, MUTANT: JSON.stringify(mutant) },
      stdio: 'ignore',
      timeout: mutant === null ? 900_000 : 120_000,
    },
  ).status === 0;

// Tests that fail without a mutant would notice everything.
const concerned = [...new Set(sample.flatMap(({ name }) => testsOf(name)))];
if (!run(concerned, null)) throw new Error(`the tests do not hold unchanged: ${concerned.join(' ')}`);

const end = Date.now() + Number(values.minutes) * 60_000;
const alive = [];
let tried = 0;
for (const { name, mutant } of sample) {
  if (Date.now() > end) break;
  tried += 1;
  const paths = testsOf(name);
  if (paths.length > 0 && !run(paths, mutant)) continue;
  alive.push(mutant);
  console.log(`alive: ${name}:${mutant.line}  ${mutant.was.replaceAll(/\s+/g, ' ').slice(0, 90)}  →  ${mutant.text}`);
}
console.log(
  `${tried - alive.length} of ${tried} noticed (${Math.round((100 * (tried - alive.length)) / Math.max(tried, 1))} %)`,
);

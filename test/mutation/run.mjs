// Changes one place of a library at a time and runs the tests that come past it: a mutant that no test notices shows a
// test that is missing. Run from the top of the repository under the pinned Node:
//   node_modules/.bin/node test/mutation/run.mjs --of rules
//   node_modules/.bin/node test/mutation/run.mjs --of domain --sample 200 --seed 1
//   node_modules/.bin/node test/mutation/run.mjs --file libs/domain/src/fold/air.ts
import { fork } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { compiled } from './compiling.mjs';
import { switched } from './mutants.mjs';

const { values } = parseArgs({
  options: {
    of: { type: 'string', default: 'all' },
    file: { type: 'string' },
    sample: { type: 'string' },
    seed: { type: 'string', default: '1' },
    without: { type: 'string' },
    patience: { type: 'string', default: '10' },
    minutes: { type: 'string', default: '600' },
    again: { type: 'string' },
    report: { type: 'string', default: 'out/mutants.json' },
  },
});
const parts = {
  all: /./,
  rules: /libs\/rules\/src\/rules\//,
  judging: /libs\/rules\/src\/(?!rules\/)/,
  fold: /libs\/domain\/src\/fold\//,
  domain: /libs\/domain\/src\/(?!fold\/)/,
};
const part = parts[values.of];
if (part === undefined) throw new Error(`--of is ${Object.keys(parts).join(' or ')}`);

const files = ['libs/domain/src', 'libs/rules/src'].flatMap((folder) =>
  readdirSync(folder, { recursive: true })
    .filter((name) => name.endsWith('.ts') && !name.endsWith('.d.ts'))
    .map((name) => resolve(folder, name)),
);
const sources = files.filter((name) => !/\.test\.ts$|\/index\.ts$|\/testing\//.test(name));
const testFiles = files.filter(
  (name) =>
    // How long something takes is not looked at here.
    name.endsWith('.test.ts') &&
    !name.endsWith('/long-season.test.ts') &&
    !(values.without !== undefined && name.includes(values.without)),
);

// Each source is switched once, with every mutant in it.
const switchedSources = {};
const mutants = [];
for (const path of sources) {
  const { code, mutants: found } = switched(path, mutants.length + 1);
  mutants.push(...found);
  switchedSources[path] = compiled(code);
}
const place = mkdtempSync(join(tmpdir(), 'mutants-'));
const SWITCHED = join(place, 'switched.json');
writeFileSync(SWITCHED, JSON.stringify(switchedSources));

/** A process with everything loaded, and how to ask it; null where it did not answer in time. */
async function begin(mutant = 0) {
  const child = fork(new URL('child.mjs', import.meta.url).pathname, {
    env: { ...process.env, SWITCHED, TESTS: JSON.stringify(testFiles), MUTANT: String(mutant) },
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    serialization: 'advanced',
  });
  const answer = (seconds) =>
    new Promise((done) => {
      const late = setTimeout(() => child.kill('SIGKILL'), seconds * 1000);
      const end = (value) => {
        clearTimeout(late);
        child.off('message', end);
        child.off('exit', gone);
        done(value);
      };
      const gone = () => end(null);
      child.on('message', end);
      child.on('exit', gone);
    });
  const ready = await answer(120);
  return {
    ready,
    ask(question, seconds) {
      const answered = answer(seconds);
      child.send(question, () => undefined);
      return answered;
    },
    end: () => child.kill('SIGKILL'),
  };
}

/** What each test comes past. It is kept beside the dependencies, as long as sources and tests stay what they are. */
async function surveyed() {
  const inputs = [
    JSON.stringify(switchedSources),
    ...files.map((path) => readFileSync(path, 'utf8')),
    JSON.stringify(testFiles),
  ];
  const sum = createHash('sha256').update(inputs.join('\0')).digest('hex');
  const kept = 'node_modules/.cache/furrowmark/mutation-survey.json';
  if (existsSync(kept)) {
    const before = JSON.parse(readFileSync(kept, 'utf8'));
    if (before.sum === sum) return before.survey;
  }
  const first = await begin();
  if (first.ready?.failed !== null) throw new Error(`the tests do not load: ${first.ready?.failed}`);
  const survey = await first.ask({ survey: true }, 3600);
  first.end();
  if (survey === null) throw new Error('the tests did not end');
  if (survey.found.every(({ ok }) => ok)) {
    mkdirSync(dirname(kept), { recursive: true });
    writeFileSync(kept, JSON.stringify({ sum, survey }));
  }
  return survey;
}
const survey = await surveyed();
const broken = survey.found.filter(({ ok }) => !ok);
if (broken.length > 0) throw new Error(`do not hold unchanged: ${broken.map(({ name }) => name).join(' | ')}`);
/** Place (the first mutant's number) → the tests that come past it, the quickest first. */
const tests = survey.found.map((test, index) => ({ ...test, index })).sort((a, b) => a.took - b.took);
const past = new Map();
for (const test of tests) {
  for (const place of test.passed) {
    const those = past.get(place);
    if (those === undefined) past.set(place, [test]);
    else those.push(test);
  }
}
const atLoad = new Set(survey.atLoad);
const seconds = tests.reduce((sum, { took }) => sum + took, 0) / 1000;
console.log(
  `${mutants.length} mutants in ${sources.length} files; ${tests.length} tests, ${seconds.toFixed(0)} s of them`,
);

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
const chosen = mutants
  .filter(({ path }) => part.test(path) && (values.file === undefined || path === resolve(values.file)))
  .map((mutant) => ({ mutant, order: next() }))
  .sort((a, b) => (values.sample === undefined ? a.mutant.id - b.mutant.id : a.order - b.order))
  .slice(0, values.sample === undefined ? undefined : Number(values.sample))
  .map(({ mutant }) => mutant);
/** What an earlier report has as noticed, so that only the rest is tried, with more patience; of the same sources. */
const earlier = values.again === undefined ? [] : JSON.parse(readFileSync(values.again, 'utf8'));
const same = (a, b) => a.path === b.path && a.line === b.line && a.was === b.was && a.text === b.text;
for (const each of earlier) {
  if (!same(each, mutants[each.id - 1] ?? {})) throw new Error(`${values.again} is of other sources`);
}
const noticedBefore = new Map(earlier.filter(({ by }) => by !== null).map(({ id, by }) => [id, by]));

const end = Date.now() + Number(values.minutes) * 60_000;
const results = new Map();
const said = ({ path, line, was, text }) =>
  `${path.slice(process.cwd().length + 1)}:${line}  ${was.replaceAll(/\s+/g, ' ').slice(0, 90)}  →  ${text}`;
const patience = Number(values.patience) * 1000;
/** So much of the tests is run first, in a process that is kept. */
const quickMs = 1_500;
const noticedLately = new Map();
/** The tests to run, within patience: those that noticed the neighbours, those that stand beside, then the quickest. */
function which(candidates, path, patience) {
  const lately = noticedLately.get(path) ?? [];
  const folder = dirname(path);
  const rank = ({ index, file }) => {
    // One test that comes past most of the rules.
    if (patience > quickMs && file.endsWith('/revisions.test.ts')) return 0;
    if (lately.includes(index)) return 0;
    if (file === path.replace('.ts', '.test.ts')) return 1;
    return file.startsWith(`${folder}/`) ? 2 : 3;
  };
  const ordered = candidates.toSorted((a, b) => rank(a) - rank(b) || a.took - b.took);
  let sum = 0;
  const taken = ordered.filter(({ took }) => {
    // One that takes longer than what is left does not keep the quicker ones from running.
    const fits = sum + took <= patience;
    if (fits) sum += took;
    return fits;
  });
  return { indexes: taken.map(({ index }) => index), took: taken.reduce((all, { took }) => all + took, 0) / 1000 };
}
function noticed(mutant, by) {
  if (typeof by === 'number') {
    const lately = noticedLately.get(mutant.path) ?? [];
    noticedLately.set(mutant.path, [by, ...lately.filter((each) => each !== by)].slice(0, 12));
  }
  results.set(mutant, by);
  if (by === null) console.log(`alive: ${said(mutant)}`);
  if (results.size % 100 === 0) {
    const missed = [...results.values()].filter((each) => each === null).length;
    process.stderr.write(
      `${results.size} of ${chosen.length} tried, ${missed} alive, ${again.length} to be tried alone\n`,
    );
  }
}

for (const mutant of chosen) if (noticedBefore.has(mutant.id)) results.set(mutant, noticedBefore.get(mutant.id));
const queue = chosen.filter((mutant) => !results.has(mutant));
const again = [];
async function worker() {
  let child = await begin();
  for (let mutant = queue.shift(); mutant !== undefined && Date.now() < end; mutant = queue.shift()) {
    const candidates = past.get(mutant.place) ?? [];
    if (candidates.length === 0 && atLoad.has(mutant.place)) again.push(mutant);
    else if (candidates.length === 0) noticed(mutant, null);
    else {
      const { indexes, took } = which(candidates, mutant.path, quickMs);
      const answer = await child.ask({ mutant: mutant.id, which: indexes }, 5 + took * 6);
      if (answer === null) {
        noticed(mutant, 'never ended');
        child = await begin();
      } else {
        if (answer.by === null || answer.spoilt) again.push(mutant);
        else noticed(mutant, answer.by);
        if (answer.spoilt) {
          child.end();
          child = await begin();
        }
      }
    }
  }
  child.end();
  // What no quick test noticed, is decided while the sources load, or is kept between tests: a process for each.
  for (let mutant = again.shift(); mutant !== undefined && Date.now() < end; mutant = again.shift()) {
    const fresh = await begin(mutant.id);
    if (fresh.ready === null) noticed(mutant, 'never loaded');
    else {
      const candidates = atLoad.has(mutant.place) ? tests : past.get(mutant.place);
      const { indexes, took } = which(candidates, mutant.path, patience);
      const answer = await fresh.ask({ mutant: mutant.id, which: indexes }, 5 + took * 6);
      noticed(mutant, answer === null ? 'never ended' : answer.by);
    }
    fresh.end();
  }
}
await Promise.all(Array.from({ length: Math.min(availableParallelism(), 4) }, worker));

const alive = chosen.filter((mutant) => results.get(mutant) === null);
const tried = results.size;
const byFolder = new Map();
for (const [{ path }, by] of results) {
  const folder = path
    .slice(process.cwd().length + 1)
    .split('/')
    .slice(0, 4)
    .join('/');
  const sum = byFolder.get(folder) ?? { tried: 0, noticed: 0 };
  byFolder.set(folder, { tried: sum.tried + 1, noticed: sum.noticed + (by === null ? 0 : 1) });
}
for (const [folder, sum] of byFolder)
  console.log(`${folder}: ${sum.noticed} of ${sum.tried} (${Math.round((100 * sum.noticed) / sum.tried)} %)`);
console.log(
  `${tried - alive.length} of ${tried} noticed (${((100 * (tried - alive.length)) / Math.max(tried, 1)).toFixed(1)} %)`,
);
mkdirSync(dirname(values.report), { recursive: true });
writeFileSync(
  values.report,
  JSON.stringify(
    [...results].map(([mutant, by]) => ({
      ...mutant,
      by: typeof by === 'number' ? `${survey.found[by].file} › ${survey.found[by].name}` : by,
    })),
    null,
    1,
  ),
);
rmSync(place, { recursive: true });

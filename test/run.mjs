// `npm test`: everything a green run needs, installing what is missing, then every test once but the long ones, which are
// `npm run trials` (test/trials.mjs). The last line is always `N passed, M failed`. Patterns pass through to either kind:
// `npm test -- libs/log`, `npm test -- test/faults`.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { installIfNeeded } from '../apps/api/bin/install.mjs';
import { pinnedNode, root } from '../apps/api/bin/places.mjs';
import { installPrograms } from './programs.mjs';
import { trials } from './trials.mjs';

const given = process.argv.slice(2);
const patterns =
  given[0] === '--trials'
    ? [`--testSequencer=${join(root, 'test', 'trials-in-order.mjs')}`, ...trials, ...given.slice(1)]
    : given.length > 0
      ? given
      : [...['/node_modules/', '/dist/', '/data/', '/out/'], ...trials].map(
          (each) => `--testPathIgnorePatterns=${each}`,
        );

// The trials wait much: for browsers, for clocks, for what was killed to come back.
const workers = given[0] === '--trials' ? 3 : 2;

const finish = (passed, failed, code) => {
  console.log(`${passed} passed, ${failed} failed`);
  process.exit(code);
};

try {
  await installIfNeeded();
  installPrograms();
} catch (error) {
  console.error(`npm test: ${error instanceof Error ? error.message : String(error)}`);
  finish(0, 1, 1);
}

const scratch = mkdtempSync(join(tmpdir(), 'furrowmark-test-'));
const report = join(scratch, 'report.json');
const jest = join(root, 'node_modules', 'jest', 'bin', 'jest.js');
const done = spawnSync(
  pinnedNode,
  [
    '--experimental-vm-modules',
    '--disable-warning=ExperimentalWarning',
    jest,
    `--maxWorkers=${workers}`,
    '--json',
    `--outputFile=${report}`,
    ...patterns,
  ],
  { cwd: root, stdio: ['ignore', 'ignore', 'inherit'] }, // jest tells its story on stderr; stdout would be the report again
);

let result;
try {
  result = JSON.parse(readFileSync(report, 'utf8'));
} catch {
  console.error('npm test: jest ended without a report; its words are above.');
  finish(0, 1, 1);
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
// A test that did not run has shown nothing: skipped ones and files that could not start count as failed.
const skipped = result.numPendingTests + result.numTodoTests;
if (skipped > 0) console.error(`npm test: ${skipped} tests were skipped; a skipped test counts as failed.`);
const failed = result.numFailedTests + result.numRuntimeErrorTestSuites + skipped;
const green = done.status === 0 && failed === 0 && result.numPassedTests > 0;
finish(result.numPassedTests, green ? 0 : Math.max(failed, 1), green ? 0 : 1);

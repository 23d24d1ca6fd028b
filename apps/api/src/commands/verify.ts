import { spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { packTar } from '@furrowmark/log';
import { Archives, Rebuild } from '../archive/index.ts';
import type { Command } from './command.ts';
import { operationIdOf, withOperation } from './operation-here.ts';
import { writeWhole } from './whole-file.ts';

/** The verifier is a program of its own, which imports nothing of the service: it is only started here. */
const program = fileURLToPath(new URL('../../../verify/src/main.ts', import.meta.url));

export const verify: Command = {
  verb: 'verify',
  usage:
    'ARCHIVE|ENTRIES|PROOF|CHECKPOINT|--operation ID [--key KEY] [--against CHECKPOINT|SIZE:ROOT [--dated DATE]] [--json]',
  purpose:
    'Checks an exported log, a proof or a checkpoint offline, with the separate verifying program; with --operation the log in the database here, and what is kept beside it. 0: genuine and witnessed; 1: altered; 2: not readable; 3: self-consistent, not witnessed; 4: documents missing.',
  run(args) {
    const at = args.findIndex((each) => each === '--operation' || each.startsWith('--operation='));
    if (at < 0) return verifier(args);
    const inline = args[at]?.split('=', 2)[1];
    const operationId = operationIdOf(inline ?? args[at + 1]);
    return live(operationId, args.toSpliced(at, inline === undefined ? 2 : 1));
  },
};

function verifier(args: readonly string[]): Promise<number> {
  const child = spawn(
    process.execPath,
    ['--conditions=source', '--disable-warning=ExperimentalWarning', program, ...args],
    { stdio: 'inherit' },
  );
  return new Promise((done, fail) => {
    child.once('error', fail);
    child.once('exit', (code) => done(code ?? 2));
  });
}

/** The log as it lies in the database, given to the separate program; then what is kept beside the entries. */
async function live(operationId: string, args: readonly string[]): Promise<number> {
  return withOperation(operationId, async ({ context }) => {
    const folder = await mkdtemp(join(tmpdir(), 'furrowmark-verify-'));
    try {
      const path = join(folder, 'log.tar');
      const { files } = await context.get(Archives).of(operationId, { openings: true, evenIfAltered: true });
      await writeWhole(path, packTar(files));
      const code = await verifier([path, ...args]);
      const { indexes, different } = await context.get(Rebuild).run(operationId, { mend: false });
      const beside = [...indexes.map(({ what }) => what), ...different];
      if (beside.length === 0) return code;
      console.error(`\nALTERED, in the database beside the entries\n${beside.map((what) => `  - ${what}`).join('\n')}`);
      return 1;
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  });
}

import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Command } from './command.ts';

/** The verifier is a program of its own, which imports nothing of the service: it is only started here. */
const program = fileURLToPath(new URL('../../../verify/src/main.ts', import.meta.url));

export const verify: Command = {
  verb: 'verify',
  usage: 'ARCHIVE|ENTRIES|PROOF|CHECKPOINT [--key KEY] [--against CHECKPOINT|SIZE:ROOT [--dated DATE]] [--json]',
  purpose:
    'Checks an exported log, a proof or a checkpoint offline, with the separate verifying program. 0: genuine and witnessed; 1: altered; 2: not readable; 3: self-consistent, not witnessed; 4: documents missing.',
  run(args) {
    const child = spawn(
      process.execPath,
      ['--conditions=source', '--disable-warning=ExperimentalWarning', program, ...args],
      {
        stdio: 'inherit',
      },
    );
    return new Promise((done, fail) => {
      child.once('error', fail);
      child.once('exit', (code) => done(code ?? 2));
    });
  },
};

import { spawnSync } from 'node:child_process';

/** The verifier in Python on an archive (`verify.py`): its exit code and what it printed. */
export function python(path: string, args: readonly string[]): { code: number | null; said: string } {
  const program = new URL('verify.py', import.meta.url).pathname;
  const { error, status, stdout, stderr } = spawnSync('/usr/bin/python3', ['-B', program, path, ...args], {
    encoding: 'utf8',
  });
  if (error !== undefined) throw new Error('this check needs Python: apt-get install python3', { cause: error });
  return { code: status, said: stdout + stderr };
}

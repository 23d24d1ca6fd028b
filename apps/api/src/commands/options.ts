import { parseArgs, type ParseArgsConfig } from 'node:util';
import { AlreadyServed, NewerSchema } from '../database/index.ts';
import { ProblemAnswer } from '../http/index.ts';
import { Refusal } from './command.ts';

/**
 * Reads a verb's arguments. Unknown options and missing values are refused with what is wrong; an option that may be
 * given many times is not needed by any verb.
 */
export function options<const T extends readonly string[], const F extends readonly string[] = readonly []>(
  args: readonly string[],
  names: T,
  flags?: F,
): {
  readonly given: Readonly<Partial<Record<T[number], string>>>;
  readonly flags: ReadonlySet<F[number]>;
  readonly rest: readonly string[];
} {
  const config: NonNullable<ParseArgsConfig['options']> = {};
  for (const name of names) config[name] = { type: 'string' };
  for (const flag of flags ?? []) config[flag] = { type: 'boolean' };
  let parsed;
  try {
    parsed = parseArgs({ args: [...args], options: config, allowPositionals: true, strict: true });
  } catch (error) {
    throw new Refusal(error instanceof Error ? error.message : String(error));
  }
  const given: Partial<Record<T[number], string>> = {};
  for (const name of names) {
    const value = parsed.values[name];
    if (typeof value === 'string') Object.assign(given, { [name]: value });
  }
  const raised = new Set<F[number]>((flags ?? []).filter((flag) => parsed.values[flag] === true));
  return { given, flags: raised, rest: parsed.positionals };
}

/** The words for an error that the person at the keyboard can mend; null for a defect of the program. */
export function explained(error: unknown): string | null {
  if (error instanceof Refusal || error instanceof AlreadyServed || error instanceof NewerSchema) return error.message;
  if (error instanceof ProblemAnswer)
    return [error.message, ...error.body.errors.map(({ detail }) => `  ${detail}`)].join('\n');
  if (!(error instanceof Error) || !('code' in error)) return null;
  switch (error.code) {
    case 'EADDRINUSE':
      return 'the port is taken by another program. Choose one with PORT=…, or PORT=0 for any free one.';
    case 'ENOENT':
      return `${'path' in error ? String(error.path) : 'a file'} was not found.`;
    case 'EACCES':
      return `${'path' in error ? String(error.path) : 'a file'} may not be read or written by this user.`;
    case 'ENOSPC':
      return 'the disk is full.';
    case 'ECONNREFUSED':
      return 'nothing answers at that address: is the database or the service running?';
    default:
      return null;
  }
}

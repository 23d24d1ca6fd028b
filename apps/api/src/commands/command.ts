/** One verb of the command line. A verb is one file, and one line in the catalogue. */
export interface Command {
  readonly verb: string;
  /** What follows the verb: `FILE [--operation ID]`. */
  readonly usage: string;
  /** What it is for, in one sentence. */
  readonly purpose: string;
  /** Runs it; gives the exit code. Rejects with a `Refusal` where the person at the keyboard can mend it. */
  run(args: readonly string[]): Promise<number>;
}

/** Something the person at the keyboard can put right: its message is all that is printed. */
export class Refusal extends Error {
  override readonly name = 'Refusal';
}

import { parseArgs } from 'node:util';

export const usage = `Checks a record log offline.

  furrowmark-verify WHAT [options]

WHAT is an archive (.tar, or the directory it was unpacked into), a file of entries (one a line),
a proof file (.tlog-proof) or a checkpoint.

  --key KEY            a verifier key from outside, as a line or a file that holds it; may be repeated
                       (the log's own, witnesses'). A key taken from the archive proves nothing.
  --against WHAT       something kept outside the log: a checkpoint file, a proof file, or SIZE:ROOT as
                       printed on a report; may be repeated
  --dated DATE         when the --against before it was kept: 2026-06-03 or 2026-06-03T14:00:00Z
  --checkpoint FILE    the log's own checkpoint, where WHAT is a file of entries
  --entry FILE         the entry that a proof file is about, where the file does not hold it
  --json               the whole report as JSON

Exit: 0 genuine up to a witnessed size; 1 altered; 2 not readable; 3 self-consistent but not witnessed;
4 nothing altered, but documents are missing.
`;

export interface Options {
  readonly what: string;
  readonly keys: readonly string[];
  readonly against: readonly { readonly what: string; readonly dated: string | null }[];
  readonly checkpoint: string | null;
  readonly entry: string | null;
  readonly json: boolean;
}

/** Reads the command line. Throws an Error with a sentence for the user. */
export function parseOptions(args: readonly string[]): Options {
  const { tokens, values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    tokens: true,
    options: {
      key: { type: 'string', multiple: true },
      against: { type: 'string', multiple: true },
      dated: { type: 'string', multiple: true },
      checkpoint: { type: 'string' },
      entry: { type: 'string' },
      json: { type: 'boolean' },
    },
  });
  const [what, ...more] = positionals;
  if (what === undefined || more.length > 0) throw new Error('name one thing to check');
  const against: { what: string; dated: string | null }[] = [];
  for (const token of tokens) {
    if (token.kind !== 'option') continue;
    if (token.name === 'against') against.push({ what: token.value ?? '', dated: null });
    if (token.name === 'dated') {
      const last = against.pop();
      if (last === undefined) throw new Error('--dated follows the --against that it dates');
      against.push({ ...last, dated: token.value ?? null });
    }
  }
  const { key = [], checkpoint = null, entry = null, json = false } = values;
  return { what, keys: key, against, checkpoint, entry, json };
}

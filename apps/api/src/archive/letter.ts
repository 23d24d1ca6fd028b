import { checkpointIn } from '../log/index.ts';
import type { Letter } from './mail.ts';

interface About {
  readonly to: string;
  readonly operation: string;
  readonly operationId: string;
  /** The signed checkpoint. */
  readonly note: string;
  /** The verifier key line. */
  readonly key: string;
  readonly now: number;
}

/** The letter that carries a checkpoint: what it is, what to do with it (keep it), how it is used. */
export function letterOf({ to, operation, operationId, note, key, now }: About): Letter {
  const { size } = checkpointIn(note);
  const day = new Date(now).toISOString().slice(0, 10);
  const name = `checkpoint-${operationId}-${size}.txt`;
  const text = `This is a checkpoint of the record log of ${operation || 'an operation'}: ${size} entries, ${day} (UTC).

It says nothing of what was recorded. It fixes which records there are today, and in which order: kept by you, out of
the operation's reach, it shows later whether any of them was changed, taken out or put in. It does not show that what
was recorded is true, complete or in time.

There is nothing to do but keep it: this letter, or the file ${name}.

Should you want to check: ask the operation for the archive of its log and run

    furrowmark-verify ARCHIVE.tar --key KEY --against ${name} --dated ${day}

with the key of the log, which you should have on paper from the operation as well:

    ${key}

The checkpoint:

${note}`;
  return {
    to,
    subject: `Checkpoint of ${size} entries: ${operation.replaceAll(/\s+/g, ' ').slice(0, 80) || operationId}`,
    text,
    attachment: { filename: name, content: note },
  };
}

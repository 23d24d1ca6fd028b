import { checkEntry, isSealed, sealedIn } from '@furrowmark/domain';
import { memberOf } from '@furrowmark/log';
import { z } from 'zod';
import { mostRecordBytes } from '../append/index.ts';

const sealable = z.looseObject({ id: z.string(), type: z.string(), data: z.unknown() });

/**
 * Asks of the entries of an archive, one after the other, what acceptance asked of them where they were recorded: once
 * they are in the log they are trusted. And what a record by itself cannot tell: that its id is its own, that names are
 * sealed, that it is no longer than an entry may be.
 */
export class Admission {
  readonly #ids = new Set<string>();

  /** Words for why the entry cannot be taken; null where it can. */
  refusal(bytes: Uint8Array, value: unknown): string | null {
    if (bytes.length > mostRecordBytes) return `it has ${bytes.length} bytes; an entry has at most ${mostRecordBytes}.`;
    const problem = checkEntry(value);
    if (problem !== null) return problem.detail;
    const entry = sealable.parse(value);
    if (this.#ids.has(entry.id)) return `its id, ${entry.id}, is that of an entry before it.`;
    this.#ids.add(entry.id);
    const open = sealedIn(entry).some(
      (path) => !isSealed(path.reduce<unknown>((at, step) => memberOf(at, String(step)), entry)),
    );
    return open ? 'it holds a name that is not sealed.' : null;
  }
}

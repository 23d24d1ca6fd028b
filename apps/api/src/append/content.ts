import { clientMembers } from '@furrowmark/domain';
import { canonicalText } from '@furrowmark/log';
import { unsealed, type Opening } from '../log/index.ts';

/** RFC 8785 text of what the writer set: two records with the same text have the same content. */
export function clientText(record: object): string {
  return canonicalText(clientMembers(record));
}

/**
 * Whether a record already in the log has the content that is sent. Sealed values are compared opened. Where a value
 * was erased there is nothing left to compare with, and the rest decides: the sender repeats what it once sent.
 */
export function sameContent(
  entry: Readonly<Record<string, unknown>>,
  openings: readonly Pick<Opening, 'pointer' | 'value'>[],
  sent: { readonly content: string; readonly openings: readonly Opening[]; readonly members: object },
): boolean {
  const opened = unsealed(entry, openings);
  if (clientText(opened) === sent.content) return true;
  const known = new Set(openings.map(({ pointer }) => pointer));
  const erased = sent.openings.filter(({ pointer }) => !known.has(pointer));
  return erased.length > 0 && withoutSeals(opened, sent.openings) === withoutSeals(sent.members, sent.openings);
}

function withoutSeals(record: object, openings: readonly Pick<Opening, 'pointer'>[]): string {
  const nothing = Buffer.from('null');
  return clientText(
    unsealed(
      { ...record },
      openings.map(({ pointer }) => ({ pointer, value: nothing })),
    ),
  );
}

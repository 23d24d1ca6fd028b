import { clientMembers } from '@furrowmark/domain';
import { longSeason } from '../../libs/rules/src/testing/long-season.ts';

/** A record as a client sends it. */
export type Sent = Readonly<Record<string, unknown>>;

/** At least so many records of a large brewer's invented season, as a client sends them, in the order of writing. */
export function season(records: number): Sent[] {
  const batches = Math.ceil(records / 15);
  // The service writes the first record, the operation's description, itself.
  return longSeason(batches)
    .records.filter(({ type }) => type !== 'operation.described')
    .map(clientMembers)
    .slice(0, records);
}

/** The requests of a season: so many records each. */
export function requests(records: readonly Sent[], each: number): Sent[][] {
  const parts: Sent[][] = [];
  for (let from = 0; from < records.length; from += each) parts.push(records.slice(from, from + each));
  return parts;
}

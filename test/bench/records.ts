import { clientMembers, recordFromLog, type LogRecord } from '@furrowmark/domain';
import { z } from 'zod';
import { longSeason } from '../../libs/rules/src/testing/long-season.ts';
import { operation } from '../../libs/rules/src/testing/season.ts';

/** A record as a client sends it. */
export type Sent = Readonly<Record<string, unknown>>;

const inOneSeason = 1_000;
const sent = z.array(z.record(z.string(), z.unknown()));
const entries = z.array(z.record(z.string(), z.unknown()));

/**
 * The log of a large brewer of so many batches: invented seasons of a thousand batches, eight years back and four years
 * apart (leap days stay leap days), each with its own tanks, lots and fields.
 */
export function longLog(batches: number): LogRecord[] {
  const all: LogRecord[] = [];
  for (let n = 0; n * inOneSeason < batches; n += 1) {
    const { records } = longSeason(Math.min(inOneSeason, batches - n * inOneSeason));
    const text = JSON.stringify(n === 0 ? records : records.filter(({ type }) => type !== 'operation.described'))
      .replace(/"(20\d\d)-(?=\d\d-\d\d)/g, (_, year) => `"${Number(year) - 8 - 4 * n}-`)
      .replace(/"([0-9a-f]{8})(-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12})"/g, (whole, first, rest) =>
        whole === `"${operation}"`
          ? whole
          : `"${((parseInt(first, 16) ^ n) >>> 0).toString(16).padStart(8, '0')}${rest}"`,
      );
    for (const entry of entries.parse(JSON.parse(text))) all.push(recordFromLog({ ...entry, seq: all.length }));
  }
  return all;
}

/** So many records of such a brewer, as a client sends them, in the order of writing. */
export function season(records: number): Sent[] {
  const written = longLog(Math.ceil(records / 13))
    // The service writes the first record, the operation's description, itself.
    .filter(({ type }) => type !== 'operation.described')
    .slice(0, records)
    .map(clientMembers);
  if (written.length < records) throw new Error(`there are only ${written.length} records`);
  return sent.parse(JSON.parse(JSON.stringify(written)));
}

const ingredient = z.object({ type: z.literal('batch.ingredientAdded'), data: z.object({ lotId: z.string() }) });

/** The lots that went into batches, each once, in the order of their first use. */
export function lotsUsed(records: readonly Sent[]): string[] {
  const used = records.flatMap((record) => {
    const read = ingredient.safeParse(record);
    return read.success ? [read.data.data.lotId] : [];
  });
  return [...new Set(used)];
}

/** The requests of a season: so many records each. */
export function requests(records: readonly Sent[], each: number): Sent[][] {
  const parts: Sent[][] = [];
  for (let from = 0; from < records.length; from += each) parts.push(records.slice(from, from + each));
  return parts;
}

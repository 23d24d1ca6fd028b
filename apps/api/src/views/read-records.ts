import { recordFromLog, sealedIn, type LogRecord } from '@furrowmark/domain';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { unsealed } from '../log/index.ts';

const entryRows = z.array(z.object({ bytes: z.instanceof(Buffer) }));
const openingRows = z.array(z.object({ record_id: z.string(), pointer: z.string(), value: z.instanceof(Buffer) }));
const sealable = z.looseObject({ id: z.string(), type: z.string(), data: z.unknown() });
const ids = z.array(z.guid());

const inOneQuery = 5_000;

/** The records `from` up to `to` (exclusive) of an operation's log, personal values open where they have not been erased. */
export async function readRecords(
  manager: EntityManager,
  operationId: string,
  from: number,
  to: number,
): Promise<LogRecord[]> {
  const records: LogRecord[] = [];
  for (let start = from; start < to; start += inOneQuery) {
    const rows = entryRows.parse(
      await manager.query(
        'SELECT bytes FROM log_entry WHERE operation_id = $1 AND seq >= $2 AND seq < $3 ORDER BY seq',
        [operationId, start, Math.min(to, start + inOneQuery)],
      ),
    );
    for (const record of await opened(
      manager,
      operationId,
      rows.map(({ bytes }) => bytes),
    ))
      records.push(record);
  }
  return records;
}

async function opened(manager: EntityManager, operationId: string, entries: readonly Buffer[]): Promise<LogRecord[]> {
  return (await openedEntries(manager, operationId, entries)).map(recordFromLog);
}

/** These entries as they stand in the log, not upcast, personal values open where they have not been erased. */
export async function openedEntries(
  manager: EntityManager,
  operationId: string,
  entries: readonly Buffer[],
): Promise<Readonly<Record<string, unknown>>[]> {
  const parsed = entries.map((bytes) => sealable.parse(JSON.parse(bytes.toString('utf8'))));
  // Checked, because bytes that were tampered with come this way too.
  const sealed = ids.parse(parsed.filter((entry) => sealedIn(entry).length > 0).map(({ id }) => id));
  if (sealed.length === 0) return parsed;
  const openings = openingRows.parse(
    await manager.query(
      'SELECT record_id, pointer, value FROM opening WHERE operation_id = $1 AND record_id = ANY($2::uuid[])',
      [operationId, sealed],
    ),
  );
  const byRecord = Map.groupBy(openings, (opening) => opening.record_id);
  return parsed.map((entry) => unsealed(entry, byRecord.get(entry.id) ?? []));
}

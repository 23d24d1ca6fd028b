import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { prepared } from '../database/index.ts';
import { int8 } from '../log/index.ts';

const buffer = z.instanceof(Buffer);
const entryRow = z.object({ record_id: z.string(), seq: int8, recorded_at: z.date(), bytes: buffer });
const openingRow = z.object({ record_id: z.string(), pointer: z.string(), value: buffer });
const lastRow = z.object({ subject_id: z.string(), recorded_at: z.date() });
const entryMembers = z.looseObject({ recordedBy: z.string() });

/** A record that the log holds already. */
export interface KnownEntry {
  readonly seq: number;
  readonly recordedAt: string;
  readonly recordedBy: string;
  readonly members: Readonly<Record<string, unknown>>;
  readonly openings: readonly { readonly pointer: string; readonly value: Buffer }[];
}

/** The records of these ids that the log holds, with what opens their seals. */
export async function knownEntries(
  manager: EntityManager,
  operationId: string,
  ids: readonly string[],
): Promise<ReadonlyMap<string, KnownEntry>> {
  if (ids.length === 0) return new Map();
  const found = z
    .array(entryRow)
    .parse(
      await prepared(
        manager,
        'SELECT record_id, seq, recorded_at, bytes FROM log_entry WHERE operation_id = $1 AND record_id = ANY($2::uuid[])',
        [operationId, ids],
      ),
    );
  if (found.length === 0) return new Map();
  const openings = z
    .array(openingRow)
    .parse(
      await prepared(
        manager,
        'SELECT record_id, pointer, value FROM opening WHERE operation_id = $1 AND record_id = ANY($2::uuid[])',
        [operationId, found.map((row) => row.record_id)],
      ),
    );
  return new Map(
    found.map((row) => {
      const members = entryMembers.parse(JSON.parse(row.bytes.toString('utf8')));
      const known: KnownEntry = {
        seq: row.seq,
        recordedAt: row.recorded_at.toISOString(),
        recordedBy: members.recordedBy,
        members,
        openings: openings.filter((opening) => opening.record_id === row.record_id),
      };
      return [row.record_id, known];
    }),
  );
}

/** When the last record by or about each of these persons was made (milliseconds). */
export async function lastRecordsOf(
  manager: EntityManager,
  operationId: string,
  personIds: readonly string[],
): Promise<Map<string, number>> {
  if (personIds.length === 0) return new Map();
  const found = z.array(lastRow).parse(
    await prepared(
      manager,
      `SELECT m.subject_id, max(e.recorded_at) AS recorded_at
         FROM mention m JOIN log_entry e ON e.operation_id = m.operation_id AND e.seq = m.seq
        WHERE m.operation_id = $1 AND m.subject_id = ANY($2::uuid[]) GROUP BY m.subject_id`,
      [operationId, personIds],
    ),
  );
  return new Map(found.map((row) => [row.subject_id, row.recorded_at.getTime()]));
}

import { Injectable } from '@nestjs/common';
import { openSeason, recordFromLog, UnreadableEntry, type LogRecord, type OpenSeason } from '@furrowmark/domain';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { OperationScope } from '../database/index.ts';
import { lockHead, readHead } from '../log/index.ts';
import { BatchList, differingBatches, forgetBatches, openedEntries, writeBatches } from '../views/index.ts';
import { indexFaults, mentionsOf, type IndexFault, type ReadEntry } from './indexes.ts';

/** What a comparison of everything kept beside the log with the log gave. */
export interface Rebuilt {
  readonly size: number;
  readonly batches: number;
  /** A sentence for each batch whose facts or edges were kept otherwise. */
  readonly different: readonly string[];
  readonly indexes: readonly IndexFault[];
}

const staleRows = z.array(z.object({ kind: z.string(), id: z.string() }));
const inOneStatement = 2_000;

/** Computes anew from the hashed bytes what is kept beside them: columns, mentions, tree, facts of batches, edges. */
@Injectable()
export class Rebuild {
  constructor(
    private readonly scope: OperationScope,
    private readonly batches: BatchList,
  ) {}

  /**
   * Compares; with `mend` puts mentions, facts and edges in place. The log, its columns and its tree are never changed. A
   * comparison that finds nothing holds nobody up; one that found something while records arrived is made again, and
   * records wait until it is done, as they do while something is put in place.
   */
  async run(operationId: string, { mend }: { readonly mend: boolean }): Promise<Rebuilt> {
    const found = mend ? null : await this.#compared(operationId, { mend, hold: false });
    const known = found ?? (await this.#compared(operationId, { mend, hold: true }));
    if (known === null) throw new Error('a comparison that nothing disturbed came to nothing');
    return known;
  }

  /** null where records that arrived meanwhile may be what differs: never, where they are held up. */
  async #compared(
    operationId: string,
    { mend, hold }: { readonly mend: boolean; readonly hold: boolean },
  ): Promise<Rebuilt | null> {
    return this.scope.run(operationId, async (manager) => {
      const size = (await (hold ? lockHead : readHead)(manager, operationId))?.size ?? 0;
      // On connections of its own: it never takes the head's lock, and nothing is recorded that would leave more to settle.
      const unsettled = await this.batches.settle(operationId).then(
        () => null,
        (error: unknown) => error,
      );
      const stale = staleRows.parse(
        await manager.query('SELECT kind, id FROM stale WHERE operation_id = $1', [operationId]),
      );
      const { faults: indexes, entries } = await indexFaults(manager, operationId);
      // What cannot be read cannot be folded: the fault is in the log, and it has been named.
      if (unsettled !== null && indexes.length > 0) return { size, batches: 0, different: [], indexes };
      if (unsettled !== null) throw unsettled;
      const season = await seasonOf(manager, operationId, entries, indexes.length > 0);
      if (typeof season === 'string') return { size, batches: 0, different: [season], indexes };
      if (mend && indexes.some(({ mendable }) => mendable)) await writeMentions(manager, operationId, entries);
      // Of a batch that waits to be settled it is known that what is kept of it does not hold.
      const waiting = new Set(stale.map(({ id }) => id));
      const found = { size, indexes, ...(await compareBatches(manager, operationId, season, waiting, mend)) };
      if (hold || found.indexes.length + found.different.length === 0) return found;
      return (await readHead(manager, operationId))?.size === size && stale.length === 0 ? found : null;
    });
  }
}

/** The season of these entries; a sentence where they, or the values behind their seals, are altered past reading. */
async function seasonOf(
  manager: EntityManager,
  operationId: string,
  entries: readonly ReadEntry[],
  altered: boolean,
): Promise<OpenSeason | string> {
  const records = await opened(manager, operationId, entries).catch((error: unknown) => {
    if (error instanceof UnreadableEntry || error instanceof z.ZodError || error instanceof SyntaxError) return null;
    throw error;
  });
  if (records === null) return 'an entry, or a value behind a seal, is no record any more: no facts can be computed';
  try {
    return openSeason(records);
  } catch (error) {
    // Folding takes records as the log took them, so what was put there otherwise may do anything. It has been named.
    if (altered) return 'the entries are not as they were recorded: no facts can be computed';
    throw error;
  }
}

/** The records, personal values open where they have not been erased; null where one cannot be read. */
async function opened(
  manager: EntityManager,
  operationId: string,
  entries: readonly ReadEntry[],
): Promise<LogRecord[] | null> {
  const records = entries.flatMap(({ record }) => record ?? []);
  if (records.length < entries.length) return null;
  const sealed = entries.flatMap((entry) => entry.sealed ?? []);
  const open = new Map(
    (await openedEntries(manager, operationId, sealed)).map(recordFromLog).map((record) => [record.id, record]),
  );
  return records.map((record) => open.get(record.id) ?? record);
}

/** Compares what is kept of every batch with the season; with `mend` writes anew what differs. */
async function compareBatches(
  manager: EntityManager,
  operationId: string,
  season: OpenSeason,
  waiting: ReadonlySet<string>,
  mend: boolean,
) {
  const differing = await differingBatches(manager, operationId, season);
  if (mend && differing.length > 0) {
    const ids = differing.map(({ id }) => id);
    await forgetBatches(manager, operationId, ids);
    await writeBatches(manager, operationId, season, ids);
  }
  const different = differing
    .filter(({ id }) => !waiting.has(id))
    .map(
      ({ id, given, kept }) =>
        `batch ${id}: ${!given ? 'is in no record' : kept ? 'was kept otherwise' : 'was missing'}`,
    );
  return { batches: season.batches().length, different };
}

async function writeMentions(
  manager: EntityManager,
  operationId: string,
  entries: readonly ReadEntry[],
): Promise<void> {
  await manager.query('DELETE FROM mention WHERE operation_id = $1', [operationId]);
  for (let from = 0; from < entries.length; from += inOneStatement) {
    const named = entries
      .slice(from, from + inOneStatement)
      .flatMap(({ seq, record }) => (record === null ? [] : [...mentionsOf(record)].map((id) => ({ id, seq }))));
    await manager.query('INSERT INTO mention SELECT $1, * FROM unnest($2::uuid[], $3::bigint[])', [
      operationId,
      named.map(({ id }) => id),
      named.map(({ seq }) => seq),
    ]);
  }
}

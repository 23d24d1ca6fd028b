import type { LogRecord, OpenSeason } from '@furrowmark/domain';
import type { Held } from '../store/held.ts';
import type { Queued } from '../store/queued.ts';
import type { Engine } from './engine.ts';

/** The season as this device knows it: the log as read so far, and what was entered here and waits. */
export interface LocalSeason {
  readonly engine: Engine;
  readonly season: OpenSeason;
  /** What waits or was refused, by record id. */
  readonly queued: ReadonlyMap<string, Queued>;
  /** Entries of a kind that this app does not know: a newer one wrote them. */
  readonly unreadable: number;
  /** Size of the log as read. */
  readonly size: number;
  /** Nothing of the past is still on its way. */
  readonly whole: boolean;
}

/** What a record that waits is taken for until the log has it: the next place, entered when it was typed. */
function asEntry(queued: Queued, seq: number): unknown {
  const { record, operationId } = queued;
  const recordedAt = record.enteredAt ?? record.occurredAt;
  return { ...record, operationId, seq, recordedAt, recordedBy: 'this device' };
}

function readable(engine: Engine, entries: Iterable<unknown>): { records: LogRecord[]; unreadable: number } {
  const records: LogRecord[] = [];
  let unreadable = 0;
  for (const entry of entries) {
    try {
      records.push(engine.domain.recordFromLog(entry));
    } catch (error) {
      if (!(error instanceof engine.domain.UnreadableEntry)) throw error;
      unreadable += 1;
    }
  }
  return { records, unreadable };
}

const counts = (queued: Queued): boolean => queued.state.kind !== 'refused';

/**
 * Folds what this device holds. Where only something was added since `before`, that alone is folded in. A refused
 * record is not part of the season: the log does not have it and will not.
 */
export function foldLocal(engine: Engine, held: Held, before: { held: Held; local: LocalSeason } | null): LocalSeason {
  const waiting = held.queue.filter(counts);
  const size = held.next;
  const queued = new Map(held.queue.map((each) => [each.id, each]));
  const start = before === null ? null : growth(before.held, held);
  if (before !== null && start !== null) {
    const fresh = waiting.slice(start).map((each, i) => asEntry(each, size + start + i));
    const { records } = readable(engine, fresh);
    if (records.length > 0) before.local.season.add(records);
    return { ...before.local, queued, whole: held.whole };
  }
  const { records, unreadable } = readable(engine, [
    ...held.entries,
    ...waiting.map((each, i) => asEntry(each, size + i)),
  ]);
  return { engine, season: engine.domain.openSeason(records), queued, unreadable, size, whole: held.whole };
}

/** Where the new ones of the queue begin, if the queue only grew at its end and the log stayed; null otherwise. */
function growth(before: Held, now: Held): number | null {
  if (before.operationId !== now.operationId || before.entries.length !== now.entries.length) return null;
  const [old, fresh] = [before.queue.filter(counts), now.queue.filter(counts)];
  const same = old.every((each, i) => {
    const other = fresh[i];
    return other?.id === each.id && JSON.stringify(other.record) === JSON.stringify(each.record);
  });
  return same ? old.length : null;
}

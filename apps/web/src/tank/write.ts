import type { LogRecord } from '@furrowmark/domain';
import { v7 } from 'uuid';
import { problemIn, type Problem } from '../http/ask.ts';
import type { LocalSeason } from '../season/local.ts';
import { session, writer } from '../session/session.ts';
import { enqueue } from '../store/queue.ts';
import type { QueuedFile, SentRecord } from '../store/queued.ts';
import { exchange } from '../sync/sync.ts';
import type { Data } from './forms/form.ts';

/** What a person enters besides the data. */
export interface Entry {
  readonly type: LogRecord['type'];
  readonly data: Data;
  readonly at: number;
  readonly plusMinusMinutes?: number | undefined;
  readonly performedBy?: string | undefined;
  readonly origin?: string | undefined;
}

/** The record as it is sent, its times in the operation's zone. `id` keeps the same record the same through retries. */
export function recordOf(
  { engine, season }: Pick<LocalSeason, 'engine' | 'season'>,
  entry: Entry,
  id = v7(),
): SentRecord {
  // To the millisecond: what is recorded in quick succession keeps its order.
  const exact = (at: number): string => {
    const second = Math.floor(at / 1000) * 1000;
    const fraction = String(Math.floor(at - second)).padStart(3, '0');
    return engine.domain.zonedText(second, season.timeZone).replace(/(?=[+-]\d\d:\d\d$|Z$)/, `.${fraction}`);
  };
  const { type, data, at, plusMinusMinutes, performedBy, origin } = entry;
  return {
    ...{ id, type, version: engine.domain.typeEntry(type)?.version ?? 1, occurredAt: exact(at) },
    enteredAt: exact(Date.now()),
    ...(plusMinusMinutes === undefined || plusMinusMinutes === 0 ? {} : { plusMinusMinutes }),
    ...(performedBy === undefined ? {} : { performedBy }),
    ...(origin === undefined || origin === 'observed' ? {} : { origin }),
    data,
  };
}

/** Checked as the service will check it; then onto the device, then on its way. null where nothing was wrong. */
export async function keep(
  { engine }: Pick<LocalSeason, 'engine'>,
  records: readonly SentRecord[],
  files: readonly QueuedFile[] = [],
): Promise<Problem | null> {
  for (const record of records) {
    const parsed = engine.domain.parseDraft(record, { now: Date.now() });
    if (!parsed.ok) return problemIn(parsed.problem);
  }
  const { operationId = null } = session.get() ?? {};
  if (operationId === null) return { title: '', detail: '', errors: [] };
  await enqueue(operationId, records, files, writer());
  void exchange();
  return null;
}

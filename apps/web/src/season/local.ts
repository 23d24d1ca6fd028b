import type { LogRecord, OpenSeason } from '@furrowmark/domain';
import { entriesOf, type Held } from '../store/held.ts';
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

const counts = (queued: Queued): boolean => queued.state.kind !== 'refused';

/** Entries fetched from the device's store at once, and records taken into the season at once. */
const page = 500;
const step = 50;

/** Lets others have the thread for a moment, if it was held for long. */
export type Pause = () => Promise<void> | undefined;

/**
 * The season of an operation, growing with what the device holds. Only what came since is folded in; what waited and
 * is in the log by now, was refused or changed is taken out first. A refused record is not part of the season: the log
 * does not have it and will not.
 */
export class GrowingSeason {
  #season: OpenSeason | null = null;
  #from: Pick<Held, 'operationId' | 'since' | 'next' | 'past'> | null = null;
  /** What of the queue stands in the season, by id, as it was written. */
  #waiting = new Map<string, string>();
  #unreadable = 0;
  #last: LocalSeason | null = null;

  constructor(
    private readonly engine: Engine,
    private readonly pause: Pause = () => undefined,
  ) {}

  /** The season as of what is held; the same object as before where nothing changed. */
  async follow(held: Held): Promise<LocalSeason> {
    const { operationId, since, next, past, pastEnd, whole } = held;
    const from = this.#from;
    const goesOn = from !== null && from.operationId === operationId && from.since === since && from.next <= next;
    if (!goesOn) {
      this.#season = null;
      this.#waiting = new Map();
      this.#unreadable = 0;
      this.#last = null;
    }
    const before = goesOn ? from : { next: 0, past: 0 };
    // The kit leaves gaps in the past; they are filled page by page.
    const entries = [
      ...(goesOn ? await this.#entries(operationId, before.past, Math.min(past, pastEnd)) : []),
      ...(await this.#entries(operationId, before.next, next)),
    ];
    const waiting = new Map(held.queue.filter(counts).map((each) => [each.id, each]));
    const arrived = new Set<string>(entries.map(({ id }) => id));
    const gone = [...this.#waiting].filter(([id, text]) => arrived.has(id) || textOf(waiting.get(id)) !== text);
    for (const [id] of gone) this.#waiting.delete(id);
    const fresh = [...waiting.values()].filter(({ id }) => !this.#waiting.has(id) && !arrived.has(id));
    const entered = this.#read(fresh.map((each, i) => asEntry(each, next + this.#waiting.size + i)));
    await this.#take(
      gone.map(([id]) => id),
      [...entries, ...entered],
    );
    for (const each of fresh) this.#waiting.set(each.id, textOf(each));
    this.#from = { operationId, since, next, past: Math.min(past, pastEnd) };
    return this.#now(held, gone.length + entries.length + entered.length > 0, whole);
  }

  async #take(gone: readonly string[], records: readonly LogRecord[]): Promise<void> {
    const season = this.#season;
    if (season !== null) {
      // What waited and is in the log now goes and comes in one step: at no moment is it in neither.
      const was = new Set(gone);
      const ordered = records.toSorted((a, b) => Number(was.has(b.id)) - Number(was.has(a.id)));
      if (gone.length > 0) season.withdraw(gone);
      const first = Math.max(step, gone.length);
      for (let at = 0; at < ordered.length; at += at === 0 ? first : step) {
        if (at > 0) await this.pause();
        season.take(ordered.slice(at, at === 0 ? first : at + step));
      }
      return;
    }
    const opening = this.engine.domain.openingSeason(records, step);
    let done = opening.next();
    while (done.done !== true) {
      await this.pause();
      done = opening.next();
    }
    this.#season = done.value;
  }

  /** Entries from a `seq` up to before another. */
  async #entries(operationId: string, from: number, to: number): Promise<readonly LogRecord[]> {
    const found: LogRecord[] = [];
    for (let at = from; at < to;) {
      const some = await entriesOf(operationId, at, to, page);
      found.push(...this.#read(some.map(({ entry }) => entry)));
      const last = some.at(-1);
      if (last === undefined || some.length < page) break;
      at = last.seq + 1;
      await this.pause();
    }
    return found;
  }

  #read(entries: Iterable<unknown>): LogRecord[] {
    const { recordFromLog, UnreadableEntry } = this.engine.domain;
    const records: LogRecord[] = [];
    for (const entry of entries) {
      try {
        records.push(recordFromLog(entry));
      } catch (error) {
        if (!(error instanceof UnreadableEntry)) throw error;
        this.#unreadable += 1;
      }
    }
    return records;
  }

  #now(held: Held, grew: boolean, whole: boolean): LocalSeason {
    const last = this.#last;
    if (this.#season === null) throw new Error('no season was opened');
    const same = last !== null && !grew && last.whole === whole && last.size === held.next;
    if (same && sameStates(last.queued, held.queue)) return last;
    const queued = new Map(held.queue.map((each) => [each.id, each]));
    this.#last = {
      ...{ engine: this.engine, season: this.#season, queued, unreadable: this.#unreadable },
      ...{ size: held.next, whole },
    };
    return this.#last;
  }
}

const textOf = (queued: Queued | undefined): string => (queued === undefined ? '' : JSON.stringify(queued.record));

function sameStates(before: ReadonlyMap<string, Queued>, now: readonly Queued[]): boolean {
  return (
    before.size === now.length &&
    now.every(({ id, state, record }) => {
      const other = before.get(id);
      return other?.state.kind === state.kind && textOf(other) === JSON.stringify(record);
    })
  );
}

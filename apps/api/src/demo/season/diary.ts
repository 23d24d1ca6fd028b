import type { DataOf, RecordType } from '@furrowmark/domain';
import type { $brand } from 'zod';
import { instant, later, type Day, type Stamp } from './calendar.ts';

/** Who holds the phone or sits at the desk. */
export type Hand = 'manager' | 'recorder' | 'reviewer';

/** A record's data as a client sends it: the same shape, ids being plain text. */
export type Plain<T> = T extends string & $brand<string>
  ? string
  : T extends readonly (infer Item)[]
    ? readonly Plain<Item>[]
    : T extends object
      ? { readonly [K in keyof T]: Plain<T[K]> }
      : T;

/** A record as the season writes it, ready to be posted. */
export interface Written {
  readonly id: string;
  readonly type: RecordType;
  readonly version: 1;
  readonly occurredAt: string;
  readonly enteredAt?: string;
  readonly plusMinusMinutes?: number;
  readonly performedBy?: string;
  readonly origin?: 'observed' | 'fromMemory' | 'fromPaper' | 'instrument';
  readonly data: object;
}

/** What only the running log can tell: a signature names the last entry read, an answer the finding's id. */
export interface Known {
  readonly operationId: string;
  readonly lastSeq: number;
}

export interface Entry {
  /** When the phone or the desk delivered it. */
  readonly sentAt: string;
  readonly by: Hand;
  /** Its data name something that only the log can tell, so everything before it must have been recorded. */
  readonly readsLog: boolean;
  readonly record: (known: Known) => Written;
}

/** How a record came to be written, where that is not "by the recorder, on the spot". */
export interface Writing {
  readonly by?: Hand;
  /** When it was typed; two minutes after it happened unless said. */
  readonly entered?: Stamp;
  /** When it reached the office; when it was typed unless said (no reception at the far fields). */
  readonly sent?: Stamp;
  readonly performedBy?: string;
  readonly plusMinusMinutes?: number;
  readonly origin?: Written['origin'];
}

/** The season as it is written down, record by record. The same year gives the same records, ids included. */
export class Diary {
  readonly #entries: Entry[] = [];
  #ids = 0;

  constructor(readonly year: number) {}

  /** In the order in which they were delivered. */
  get entries(): readonly Entry[] {
    return this.#entries.toSorted((a, b) => Date.parse(a.sentAt) - Date.parse(b.sentAt));
  }

  /** A UUID of version 7's layout: counted up from the season's first day, so that a season can be written again. */
  newId(): string {
    this.#ids += 1;
    const time = (Date.UTC(this.year, 3, 1) + this.#ids).toString(16).padStart(12, '0');
    return `${time.slice(0, 8)}-${time.slice(8)}-7000-8000-${this.#ids.toString(16).padStart(12, '0')}`;
  }

  instant(stamp: Stamp): string {
    return instant(this.year, stamp);
  }

  date(day: Day, year = this.year): string {
    return `${year}-${day}`;
  }

  /** Writes one record down; gives its id. */
  write<T extends RecordType>(type: T, at: Stamp, data: Plain<DataOf<T>>, how: Writing = {}): string {
    return this.#write(type, at, () => data, how, false);
  }

  /** For the few records whose data name something that only the running log can tell. */
  writeWhenKnown<T extends RecordType>(
    type: T,
    at: Stamp,
    data: (known: Known) => Plain<DataOf<T>>,
    how: Writing = {},
  ): string {
    return this.#write(type, at, data, how, true);
  }

  #write(type: RecordType, at: Stamp, data: (known: Known) => object, how: Writing, readsLog: boolean): string {
    const id = this.newId();
    const entered = how.entered ?? later(at, 2);
    const plain = {
      id,
      type,
      version: 1 as const,
      occurredAt: this.instant(at),
      enteredAt: this.instant(entered),
      ...(how.plusMinusMinutes === undefined ? {} : { plusMinusMinutes: how.plusMinusMinutes }),
      ...(how.performedBy === undefined ? {} : { performedBy: how.performedBy }),
      ...(how.origin === undefined ? {} : { origin: how.origin }),
    };
    this.#entries.push({
      sentAt: this.instant(how.sent ?? entered),
      by: how.by ?? 'recorder',
      readsLog,
      record: (known) => ({ ...plain, data: data(known) }),
    });
    return id;
  }
}

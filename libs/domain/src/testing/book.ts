import { v5 } from 'uuid';
import type { DataOf, RecordType } from '../records/catalogue.ts';
import { recordFromLog } from '../records/fromLog.ts';
import type { LogRecord } from '../records/record.ts';

const namespace = '6f1ad6a5-6f0a-4a3b-9c62-3f1e2a7c5b10';

/** The same id for the same name, in every test. */
export const idOf = (name: string): string => v5(name, namespace);

export interface Extra {
  readonly id?: string;
  readonly plusMinusMinutes?: number;
  readonly recordedAt?: string;
  readonly performedBy?: string;
  readonly enteredAt?: string;
  readonly origin?: NonNullable<LogRecord['origin']>;
}

/** Drops the brands of ids, so that a test may write them as plain text. */
type Plain<T> = T extends string
  ? string
  : T extends readonly (infer E)[]
    ? readonly Plain<E>[]
    : T extends object
      ? { readonly [K in keyof T]: Plain<T[K]> }
      : T;

/** Writes records for a test, one after another, as an operation's log would hold them. */
export class Book {
  readonly records: LogRecord[] = [];
  readonly #name: string;

  constructor(name = 'book') {
    this.#name = name;
  }

  /** Writes a record that happened at `at` (`2026-06-03T06:00:00Z`, or `03 06:00`: that day of June 2026 in UTC). */
  write<T extends RecordType>(type: T, at: string, data: Plain<DataOf<T>>, extra: Extra = {}): LogRecord {
    return this.any(type, at, { ...data }, extra);
  }

  /** The same without looking at the data's type. */
  any(type: RecordType, at: string, data: object, extra: Extra = {}): LogRecord {
    const seq = this.records.length;
    const record = recordFromLog({
      id: idOf(`${this.#name} ${String(seq)}`),
      type,
      version: 1,
      occurredAt: when(at),
      data,
      operationId: idOf('operation'),
      seq,
      recordedAt: when(at),
      recordedBy: idOf('account'),
      ...extra,
    });
    this.records.push(record);
    return record;
  }

  amend(record: LogRecord, at: string, data: object, extra: Extra & { readonly occurredAt?: string } = {}): LogRecord {
    const { occurredAt, ...rest } = extra;
    return this.write(
      'record.amended',
      at,
      {
        recordId: record.id,
        type: record.type,
        version: record.version,
        data: { ...data },
        reason: 'written wrongly',
        ...(occurredAt === undefined ? {} : { occurredAt: when(occurredAt) }),
      },
      rest,
    );
  }

  strike(record: LogRecord, at: string, extra: Extra = {}): LogRecord {
    return this.write('record.struck', at, { recordId: record.id, type: record.type, reason: 'wrong tank' }, extra);
  }
}

export function when(at: string): string {
  const short = /^(\d\d) (\d\d:\d\d)$/.exec(at);
  return short === null ? at : `2026-06-${short[1] ?? ''}T${short[2] ?? ''}:00Z`;
}

/** Shorthand for what most tests need. */
export const gallons = (value: number) => ({ value, unit: '[gal_us]' });
export const pounds = (value: number) => ({ value, unit: '[lb_av]' });
export const litresOf = (value: number) => ({ value, unit: 'L' });

import type { Moment } from '../facts/time.ts';
import type { DataOf, RecordType } from './catalogue.ts';
import type { OperationId, PersonId, RecordId } from './ids.ts';

/** How the writer came to know. Absent = `observed`. */
export type Origin = 'observed' | 'fromMemory' | 'fromPaper' | 'instrument';

/** What a client sends. Times are RFC 3339 with offset. */
export interface DraftOf<T extends RecordType> {
  readonly id: RecordId;
  readonly type: T;
  readonly version: number;
  readonly occurredAt: string;
  readonly plusMinusMinutes?: number | undefined;
  readonly enteredAt?: string | undefined;
  readonly performedBy?: PersonId | undefined;
  readonly origin?: Origin | undefined;
  readonly data: DataOf<T>;
}

/** What the log adds. */
export interface LogFacts {
  readonly operationId: OperationId;
  readonly seq: number;
  readonly recordedAt: string;
  /** An account id, never a name. */
  readonly recordedBy: string;
}

/** A draft of any type: a union that `type` tells apart. */
export type Draft<T extends RecordType = RecordType> = { [K in T]: DraftOf<K> }[T];
/** One immutable entry of an operation's log, upcast to the newest version of its type. */
export type LogRecord<T extends RecordType = RecordType> = { [K in T]: DraftOf<K> & LogFacts }[T];

/**
 * A record as it stands now, with amendments and strikes applied. `data`, `occurredAt`, `plusMinusMinutes` and
 * `performedBy` are the current ones; `history` has what was written before, oldest first.
 */
export type CurrentRecord<T extends RecordType = RecordType> = {
  [K in T]: DraftOf<K> &
    LogFacts & {
      readonly at: Moment;
      readonly state: 'current' | 'amended' | 'struck';
      /** The original and each outranked or effective amendment and strike, in the order of §2. */
      readonly history: readonly Revision[];
    };
}[T];

export interface Revision {
  readonly kind: 'original' | 'amended' | 'struck';
  readonly recordId: RecordId;
  readonly seq: number;
  readonly occurredAt: string;
  readonly recordedAt: string;
  readonly recordedBy: string;
  readonly reason?: string | undefined;
  /** What the record said before this step took effect (original), or says from it on (amendment). */
  readonly data?: unknown;
  /** False for an amendment or strike that a later one outranks, or that was itself struck. */
  readonly inForce: boolean;
}

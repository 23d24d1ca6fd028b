import type { Photo } from '../store/queued.ts';
import type { Answers } from './forms/answer.ts';
import type { When } from './when.ts';

/** What a person did in a record form so far: the answers that are not the form's own first guesses, and the rest. */
export interface Typed {
  readonly answers: Answers;
  readonly when: When;
  /** personId of who did it. */
  readonly who: string | null;
  readonly photos: readonly Photo[];
}

/** A record form that was begun and not recorded, as the device keeps it. */
export interface Unfinished extends Typed {
  /** Of the operation, who holds the phone, and the form's address: `unfinishedId`. */
  readonly id: string;
  /** When it was touched last, ms since 1970. */
  readonly keptAt: number;
}

/** Any other form that was begun and not recorded: what a person wrote, by entry. Photos and secrets are never in it. */
export interface UnfinishedEntries extends Pick<Unfinished, 'id' | 'keptAt'> {
  readonly entries: Readonly<Record<string, unknown>>;
}

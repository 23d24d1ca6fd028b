import { v5 as uuid5 } from 'uuid';
import type { Stamp } from './calendar.ts';
import type { Farm } from './farm.ts';

/** What the office writes beside a finding. */
export interface Answer {
  readonly rule: string;
  readonly about: readonly [kind: string, id: string];
  readonly cause: string;
  readonly action: string;
  readonly state?: 'open' | 'done' | 'accepted';
}

/** Answers a finding: its cause, and what was done about it. The finding's id follows from what it is about. */
export function answer({ diary, people }: Farm, at: Stamp, it: Answer): string {
  const { cause, action, state = 'done' } = it;
  return diary.writeWhenKnown(
    'finding.answered',
    at,
    ({ operationId }) => ({
      findingId: uuid5(`${it.rule}|${it.about.join('|')}`, operationId),
      ...{ cause, action, state },
    }),
    { by: 'reviewer', performedBy: people.sefa },
  );
}

import { instantOf } from '@furrowmark/domain';
import { answersOf, type Answer } from '@furrowmark/rules';
import { localTime } from '../clock.ts';
import type { VerdictLine } from '../content.ts';
import type { Language } from '../words/index.ts';
import { keptWith } from './kept.ts';
import { personName, shortId } from './names.ts';
import type { Telling } from './telling.ts';

const en = {
  cause: 'Cause',
  action: 'Action',
  answer: (time: string, who: string, state: string) => `${time}, ${who} (${state})`,
  states: { open: 'still open', done: 'done', accepted: 'accepted' },
  account: (id: string) => `account ${id}`,
};
const es: typeof en = {
  cause: 'Causa',
  action: 'Acción',
  answer: (time, who, state) => `${time}, ${who} (${state})`,
  states: { open: 'sigue abierto', done: 'hecho', accepted: 'aceptado' },
  account: (id) => `cuenta ${id}`,
};
export const answerWords: Readonly<Record<Language, typeof en>> = { en, es };

type Notes = NonNullable<VerdictLine['notes']>;

/** Cause and action as the operation wrote them, with when and by whom. */
export function answerNotes(telling: Telling, answers: readonly Answer[]): Notes {
  const own = answerWords[telling.language];
  const { season, zone } = telling;
  const who = (id: string): string =>
    season.person(id) === undefined ? (telling.accounts?.get(id) ?? own.account(shortId(id))) : personName(telling, id);
  return answers.flatMap(({ cause, action, answeredAt, answeredBy, state }) => [
    {
      term: own.cause,
      value: `${cause} — ${own.answer(localTime(instantOf(answeredAt), zone), who(answeredBy), own.states[state])}`,
    },
    { term: own.action, value: action || '–' },
  ]);
}

const answersIn = keptWith(answersOf);

/** What the operation answered to one finding; nothing where it did not. */
export const answersTo = (telling: Telling, findingId: string): Notes =>
  answerNotes(telling, answersIn(telling.season).get(findingId) ?? []);

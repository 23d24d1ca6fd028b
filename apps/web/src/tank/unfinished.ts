import { textOf } from '../http/read.ts';
import type { Answer, Answers, Field } from './forms/index.ts';
import type { Unfinished } from './typed.ts';
import { instantOfWhen, type When } from './when.ts';

/** On a shared phone each person comes back to their own forms only. */
export const unfinishedId = (operationId: string, hand: string, address: string): string =>
  JSON.stringify([operationId, hand, address]);

const day = 86_400_000;

/** After a day nobody means it any more. */
export const stillMeant = ({ keptAt }: Pick<Unfinished, 'keptAt'>, now: number): boolean => now - keptAt < day;

/** What was `now`, or a while ago, when it was typed is that time, whenever it comes back. */
export const whenItWas = ({ when, keptAt }: Unfinished): When => ({
  ...when,
  kind: 'at',
  value: instantOfWhen(when, keptAt),
});

/** The answers with which the form comes back. What the form no longer asks for or offers is left out. */
export function answersAgain(fields: readonly Field[], first: Answers, kept: Answers): Answers {
  const again: Record<string, Answer> = { ...first };
  for (const field of fields) {
    const answer = kept[field.name];
    if (answer === undefined || answer.kind !== field.kind) continue;
    if (answer.kind === 'pick' && field.kind === 'pick') {
      const offered = new Set(field.options.map(({ value }) => value));
      const chosen = answer.chosen.filter((each) => offered.has(each));
      if (chosen.length === answer.chosen.length) again[field.name] = answer;
    } else again[field.name] = answer;
  }
  return again;
}

/** The answers that a person gave, beside those that the form began with. */
export const answersGiven = <V>(answers: Readonly<Record<string, V>>, first: object): Readonly<Record<string, V>> =>
  Object.fromEntries(Object.entries(answers).filter(([name, answer]) => answer !== Reflect.get(first, name)));

/** The same of a form whose entries may have members: of each entry only the members that a person wrote. */
export const entriesGiven = (
  entries: Readonly<Record<string, unknown>>,
  first: object,
): Readonly<Record<string, unknown>> =>
  Object.fromEntries(
    Object.entries(answersGiven(entries, first)).map(([name, entry]) => {
      const before: unknown = Reflect.get(first, name);
      return [name, hasMembers(entry) && hasMembers(before) ? answersGiven({ ...entry }, before) : entry];
    }),
  );

const hasMembers = (entry: unknown): entry is object =>
  typeof entry === 'object' && entry !== null && !Array.isArray(entry);

/** The texts with which a form comes back. What it has no entry for any more is left out. */
export function textsAgain<K extends string>(
  first: Readonly<Record<K, string>>,
  kept: unknown,
): Readonly<Record<K, string>> {
  const again: Record<K, string> = { ...first };
  for (const name in first) {
    const text = textOf(kept, name);
    if (text !== null) again[name] = text;
  }
  return again;
}

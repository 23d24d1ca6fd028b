import { dayIn, daysIn, figureIn, hoursIn, minutesIn, timeIn } from './amounts.ts';
import type { Argument, Kinds, Language, Messages, Said } from './message.ts';
import { messages } from './messages/index.ts';

const catalogue: Messages = messages;

/** Puts a sentence into a language. Throws RangeError for a key that the catalogue does not have. */
export function tell(said: Said, language: Language): string {
  const message = Object.hasOwn(catalogue, said.key) ? catalogue[said.key] : undefined;
  if (message === undefined) throw new RangeError(`no sentence ${said.key}`);
  const given = said.with ?? {};
  let text = '';
  for (const part of partsOf(message[language]))
    text += typeof part === 'string' ? part : fill(part, given[part.name] ?? null, language);
  return text;
}

/** Whether this version of the program knows how to put it into words, to the last of its parts; undefined: kept by an earlier one. */
export function isTellable(said: Said | undefined): said is Said {
  if (said === undefined) return false;
  const { key, with: given = {} } = said;
  return Object.hasOwn(catalogue, key) && Object.values(given).every(argumentTellable);
}

const isSaid = (argument: Argument): argument is Said =>
  typeof argument === 'object' && argument !== null && 'key' in argument;

function argumentTellable(argument: Argument): boolean {
  if (typeof argument !== 'object' || argument === null) return true;
  return isSaid(argument)
    ? isTellable(argument)
    : argument.every((each) => typeof each === 'string' || isTellable(each));
}

/** A slot as the catalogue writes it: how it is filled stands after `:`, words for one and for many after `#`. */
interface Slot {
  readonly name: string;
  readonly kind: string;
  readonly words: readonly [string, string] | null;
}

const parsed = new Map<string, readonly (string | Slot)[]>();

/** A template taken apart, once. */
export function partsOf(template: string): readonly (string | Slot)[] {
  let parts = parsed.get(template);
  if (parts === undefined) {
    parts = template.split(/(\{[^{}]*\})/).map((part) => (part.startsWith('{') ? slotOf(part.slice(1, -1)) : part));
    parsed.set(template, parts);
  }
  return parts;
}

function slotOf(text: string): Slot {
  const counted = /^(\w+)#([^|]*)\|(.*)$/.exec(text);
  if (counted !== null) return { name: counted[1] ?? '', kind: '', words: [counted[2] ?? '', counted[3] ?? ''] };
  const [name = '', kind = ''] = text.split(':');
  return { name, kind, words: null };
}

function fill({ kind, words, name }: Slot, argument: Argument, language: Language): string {
  if (words !== null) return words[argument === 1 ? 0 : 1];
  if (kind === '') return plain(argument, language);
  const write = written[kind];
  if (write === undefined) throw new RangeError(`no kind ${kind} of {${name}}`);
  return write(argument, language);
}

function plain(argument: Argument, language: Language): string {
  if (typeof argument === 'string') return argument;
  if (typeof argument === 'number') return String(argument);
  return isSaid(argument) ? tell(argument, language) : each(argument, language).join(', ');
}

const partsIn = (argument: Argument): readonly (string | Said)[] => {
  if (argument === null || typeof argument === 'number') return [];
  return typeof argument === 'string' || isSaid(argument) ? [argument] : argument;
};
const each = (argument: Argument, language: Language): string[] =>
  partsIn(argument).map((part) => plain(part, language));

const number = (argument: Argument): number => Number(argument);
const text = (argument: Argument): string => (typeof argument === 'string' ? argument : '');
const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

function listed(parts: readonly string[], language: Language): string {
  const last = parts.at(-1) ?? '';
  return parts.length < 2 ? last : `${parts.slice(0, -1).join(', ')} ${language === 'es' ? 'y' : 'and'} ${last}`;
}

type Write = (argument: Argument, language: Language) => string;
const written: Readonly<Record<string, Write>> = {
  hours: (hours, language) => hoursIn(number(hours), language),
  minutes: (minutes, language) => hoursIn(number(minutes) / 60, language),
  min: (minutes) => `${minutesIn(number(minutes))} min`,
  days: (days, language) => daysIn(number(days), language),
  figure: (value) => figureIn(number(value)),
  time: (time, language) => timeIn(text(time), language),
  day: (day, language) => dayIn(text(day), language),
  more: (said, language) =>
    each(said, language)
      .map((part) => ` ${part}`)
      .join(''),
  list: (parts, language) => each(parts, language).join(', '),
  semi: (parts, language) => each(parts, language).join('; '),
  and: (parts, language) => listed(each(parts, language), language),
  begin: (said, language) => capital(plain(said, language)),
  beginSemi: (parts, language) => capital(each(parts, language).join('; ')),
} satisfies Record<keyof Kinds, Write>;

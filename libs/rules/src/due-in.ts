import { messages, type Language, type Message } from './words/index.ts';
import { partsOf } from './words/tell.ts';

interface Pattern {
  readonly english: RegExp;
  readonly names: readonly string[];
  readonly message: Message;
}

const escaped = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** What is due is kept as its English words; they tell which sentence it was, and what filled its slots. */
const patterns: readonly Pattern[] = Object.entries<Message>(messages)
  .filter(([key]) => key.startsWith('due.'))
  .map(([, message]) => {
    const parts = partsOf(message.en);
    const source = parts.map((part) => (typeof part === 'string' ? escaped(part) : '(.+)')).join('');
    return {
      english: new RegExp(`^${source}$`, 'u'),
      names: parts.flatMap((part) => (typeof part === 'string' ? [] : [part.name])),
      message,
    };
  });

/** What is due (`due` of an outcome, `what` of a deadline), in a language; as it came where it is not known. */
export function dueIn(what: string, language: Language): string {
  if (language === 'en') return what;
  for (const { english, names, message } of patterns) {
    const found = english.exec(what);
    if (found === null) continue;
    const given = new Map(names.map((name, i) => [name, found[i + 1] ?? '']));
    return partsOf(message[language])
      .map((part) => (typeof part === 'string' ? part : (given.get(part.name) ?? '')))
      .join('');
  }
  return what;
}

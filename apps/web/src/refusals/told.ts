import type { Language } from '../words/catalogue.ts';
import { accessSentences } from './access.ts';
import { memberNames } from './members.ts';
import { planSentences } from './plan.ts';
import { recordSentences } from './records.ts';
import type { Sentence } from './sentence.ts';
import { tableSentences } from './tables.ts';

type Kind = 'kept' | 'told' | 'list' | 'or';
interface Reader {
  readonly pattern: RegExp;
  readonly slots: readonly { readonly name: string; readonly kind: Kind }[];
  readonly es: string;
}

const slot = /\{(\w+)(?::(told|list|or))?\}/g;
const kindOf = (text: string | undefined): Kind =>
  text === 'told' || text === 'list' || text === 'or' ? text : 'kept';

function readerOf([en, es]: Sentence): Reader {
  const slots = [...en.matchAll(slot)].map(([, name = '', kind]) => ({ name, kind: kindOf(kind) }));
  const between = en.split(/\{\w+(?::\w+)?\}/).map((text) => text.replaceAll(/[$()*+.?[\\\]^{|}]/g, '\\$&'));
  return { pattern: new RegExp(`^${between.join('(.+?)')}$`, 's'), slots, es };
}

/** Every sentence that is known; a test reads the sources for what is missing. */
export const all: readonly Sentence[] = [...recordSentences, ...planSentences, ...tableSentences, ...accessSentences];

let made: readonly Reader[] | null = null;
/** Made when something is told for the first time: most days nothing is refused. */
const readers = (): readonly Reader[] => (made ??= all.map(readerOf));

/** What fills a slot; null where it has to be told and is not known. */
function filled(text: string, kind: Kind): string | null {
  if (kind === 'kept') return text;
  const [between, joined] = kind === 'or' ? [', or ', ', o '] : kind === 'list' ? [', ', ', '] : [null, ''];
  const told = (between === null ? [text] : text.split(between)).map(sentence);
  return told.includes(null) ? null : told.join(joined);
}

/** One sentence, or the part of one, in Spanish; null where it is not known. */
function sentence(text: string): string | null {
  for (const { pattern, slots, es } of readers()) {
    const found = pattern.exec(text);
    if (found === null) continue;
    const given = new Map(slots.map(({ name, kind }, i) => [name, filled(found[i + 1] ?? '', kind)]));
    if ([...given.values()].includes(null)) continue;
    return es.replaceAll(slot, (_, name: string) => given.get(name) ?? '');
  }
  return null;
}

/** `“targets › 2 › area”` with the members as people name them. */
const named = (path: string): string =>
  path
    .split(' › ')
    .map((step) => memberNames[step] ?? step)
    .join(' › ');

/** `“volume” must not be negative.`: a member's name, and what is wrong with it. */
function ofMember(text: string): string | null {
  const [, path, what = '', more] = /^(?:“([^”]+)”|The record) (.+?)\.?(?: \((\d+) more below\))?$/s.exec(text) ?? [];
  const told = sentence(what);
  if (told === null) return null;
  return `${path === undefined ? 'El registro' : `“${named(path)}”`}: ${told}.${more === undefined ? '' : ` (${more} más abajo)`}`;
}

/** The text in Spanish; null where any of its sentences is not known. */
function inSpanish(text: string): string | null {
  const told = text.split(/(?<=\.) (?=[A-Z“])/).map((part) => sentence(part) ?? ofMember(part));
  // Some are only known as they stand together.
  return told.includes(null) ? sentence(text) : told.join(' ');
}

/** What the core or the service said, in a language as far as it is known there; and in which it is. */
export function told(text: string, language: Language): { readonly text: string; readonly language: Language } {
  const spanish = language === 'es' ? inSpanish(text) : null;
  return spanish === null ? { text, language: 'en' } : { text: spanish, language: 'es' };
}

import { memberInSpanish, tellerOf, traceSentences, type Sentence } from '@furrowmark/reports/in-spanish';
import type { Language } from '../words/catalogue.ts';
import { accessSentences } from './access.ts';
import { logSentences } from './log.ts';
import { planSentences } from './plan.ts';
import { recordSentences } from './records.ts';
import { serviceSentences } from './service.ts';
import { tableSentences } from './tables.ts';

/** Every sentence that is known; a test reads the sources for what is missing. */
export const all: readonly Sentence[] = [
  ...recordSentences,
  ...planSentences,
  ...tableSentences,
  ...accessSentences,
  ...serviceSentences,
  ...logSentences,
  ...traceSentences,
];
const known = tellerOf(all);

/** One sentence, with or without its full stop. */
const sentence = (text: string): string | null =>
  known(text) ?? (text.endsWith('.') ? ended(known(text.slice(0, -1))) : null);
const ended = (text: string | null): string | null => (text === null ? null : `${text}.`);

/** `“targets › 2 › area”` with the members as people name them. */
const named = (path: string): string => path.split(' › ').map(memberInSpanish).join(' › ');

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

import type { ReportContent } from '../content.ts';
import { en } from './en.ts';
import { es } from './es.ts';

/** The shared words of one language. English gives the shape; another language lacks nothing, or does not compile. */
export type Words = typeof en;
export type Language = ReportContent['language'];

const all: Readonly<Record<Language, Words>> = { en, es };
export const wordsOf = (language: Language): Words => all[language];
export { unitNames } from './en.ts';

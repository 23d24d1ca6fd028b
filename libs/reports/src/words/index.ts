import type { ReportContent } from '../content.ts';
import { en, type Words } from './en.ts';
import { es } from './es.ts';

export type Language = ReportContent['language'];

const all: Readonly<Record<Language, Words>> = { en, es };
export const wordsOf = (language: Language): Words => all[language];
export { unitNames, type Words } from './en.ts';

import { settings, type Units } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import type { Language, Translated } from '../words/catalogue.ts';
import { useWordsOf } from '../words/useWords.ts';
import { tankWords } from './words.ts';

export type TankWords = (typeof tankWords)['en'];

/** What is said, in which language, with which units. */
export function useTankWords(): { w: TankWords; language: Language; units: Units } {
  const { language, units } = useExternal(settings);
  return { w: useWordsOf(tankWords), language, units };
}
export type { Translated };

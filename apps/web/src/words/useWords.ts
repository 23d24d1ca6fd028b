import { settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import type { Catalogue, Translated } from './catalogue.ts';
import { shell } from './shell.ts';

/** The words of a catalogue in the language that this device is set to. */
export function useWordsOf<C>(catalogue: Catalogue<C>): Translated<C> {
  return catalogue[useExternal(settings).language];
}

/** The words that every view shares. */
export const useWords = () => useWordsOf(shell);

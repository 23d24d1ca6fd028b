import { settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import { told } from './told.ts';

/** What the core or the service said, in the language of this device as far as it is known there. */
export function Told({ text }: { readonly text: string }) {
  const said = told(text, useExternal(settings).language);
  return <span lang={said.language}>{said.text}</span>;
}

/** The same as a text. */
export const toldHere = (text: string): string => told(text, settings.get().language).text;

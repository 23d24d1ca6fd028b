/** The languages there are. */
export type Language = 'en' | 'es';

type Entry = string | ((...values: never[]) => string);

/** The same keys with the same values to fill in, in another language. A missing key does not compile. */
export type Translated<C> = {
  readonly [K in keyof C]: C[K] extends (...values: infer A) => string ? (...values: A) => string : string;
};

/** A room's words in every language. */
export interface Catalogue<C> {
  readonly en: Translated<C>;
  readonly es: Translated<C>;
}

/** Makes a catalogue: English says which keys there are and what each is given. */
export function catalogue<const C extends Readonly<Record<string, Entry>>>(
  en: C & Translated<C>,
  es: Translated<C>,
): Catalogue<C> {
  return { en, es };
}

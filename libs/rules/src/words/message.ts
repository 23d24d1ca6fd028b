/** Languages in which the rules speak. */
export type Language = 'en' | 'es';

/** What stands in a slot of a sentence: a text as recorded (a code, a name), a figure, a part of a sentence, or several. */
export type Argument = string | number | null | Said | readonly (string | Said)[];

/** A sentence before it is put into a language: its key in the catalogue and what fills its slots. Plain JSON. */
export interface Said {
  readonly key: string;
  readonly with?: Readonly<Record<string, Argument>>;
}

/** A sentence in both languages. Slots: `{name}`, `{name:kind}`, and `{n#one|many}` for a word that follows a count. */
export interface Message {
  readonly en: string;
  readonly es: string;
}
export type Messages = Readonly<Record<string, Message>>;

/** What a slot's kind takes. Times are `2026-06-03T14:35` and days `2026-06-03` as on the operation's clock. */
export interface Kinds {
  /** Hours: `9 h 12 min`. */
  readonly hours: number;
  /** Minutes, in the same words: `1 h 5 min`. */
  readonly minutes: number;
  /** Minutes as they are: `20 min`. */
  readonly min: number;
  /** `14 days`. */
  readonly days: number;
  /** Four significant digits. */
  readonly figure: number;
  /** `14:35 on 3 June 2026`. */
  readonly time: string;
  /** `3 June 2026`. */
  readonly day: string;
  /** One or more sentences that follow, each after a space; nothing where there is none. */
  readonly more: Said | null | readonly Said[];
  /** Parts after commas; after semicolons; the last one after "and". */
  readonly list: readonly (string | Said)[];
  readonly semi: readonly (string | Said)[];
  readonly and: readonly (string | Said)[];
  /** Begins a sentence: its first letter large. */
  readonly begin: string | Said;
  /** Parts after semicolons that begin a sentence. */
  readonly beginSemi: readonly (string | Said)[];
}

type Slot<T extends string> = T extends `${string}{${infer S}}${infer Rest}` ? S | Slot<Rest> : never;
type NameOf<S extends string> = S extends `${infer N}#${string}` ? N : S extends `${infer N}:${string}` ? N : S;
type ValueOf<S extends string> = S extends `${string}#${string}`
  ? number
  : S extends `${string}:${infer K}`
    ? K extends keyof Kinds
      ? Kinds[K]
      : never
    : string | number | null | Said;

/** What fills the slots of a sentence, by name. */
export type ArgumentsOf<T extends string> = { readonly [S in Slot<T> as NameOf<S>]: ValueOf<S> };

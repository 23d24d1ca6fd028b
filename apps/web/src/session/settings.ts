import type { Language } from '../words/catalogue.ts';
import { external } from '../store/external.ts';

/** `auto` follows the device. `sun`: black on white, thick lines, for bright light. */
export type Theme = 'auto' | 'light' | 'dark' | 'sun';
/** Quantities are always shown as written; the others beside it where asked for. */
export type Units = 'asWritten' | 'us' | 'metric';

/** What this device remembers about how it is used. */
export interface Settings {
  readonly language: Language;
  readonly theme: Theme;
  readonly units: Units;
  /** personId of who holds the phone; null until somebody chose. */
  readonly who: string | null;
  /** The oxygen meter, strips… used last, by what they measure. */
  readonly instruments: Readonly<Record<string, string>>;
}

const key = 'furrowmark.settings';

function usual(): Settings {
  const language = navigator.language.toLowerCase().startsWith('es') ? 'es' : 'en';
  return { language, theme: 'auto', units: 'asWritten', who: null, instruments: {} };
}

function oneOf<T extends string>(value: unknown, values: readonly T[], otherwise: T): T {
  return values.find((each) => each === value) ?? otherwise;
}

function kept(): Settings {
  const first = usual();
  try {
    const read: unknown = JSON.parse(localStorage.getItem(key) ?? '{}');
    const member = (name: string): unknown =>
      typeof read === 'object' && read !== null ? Reflect.get(read, name) : undefined;
    const who = member('who');
    const instruments = member('instruments');
    return {
      language: oneOf(member('language'), ['en', 'es'], first.language),
      theme: oneOf(member('theme'), ['auto', 'light', 'dark', 'sun'], 'auto'),
      units: oneOf(member('units'), ['asWritten', 'us', 'metric'], 'asWritten'),
      who: typeof who === 'string' ? who : null,
      instruments:
        typeof instruments === 'object' && instruments !== null
          ? Object.fromEntries(Object.entries(instruments).filter((pair) => typeof pair[1] === 'string'))
          : {},
    };
  } catch {
    return first;
  }
}

export const settings = external<Settings>(kept());

/** Changes what is named and keeps it. */
export function remember(changes: Partial<Settings>): void {
  settings.set({ ...settings.get(), ...changes });
  localStorage.setItem(key, JSON.stringify(settings.get()));
}

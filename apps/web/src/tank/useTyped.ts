import { useEffect, useState } from 'react';
import { entriesOf, forgetUnfinished, keepUnfinished } from '../store/unfinished.ts';
import { entriesGiven, textsAgain } from './unfinished.ts';
import { useUnfinishedId } from './useUnfinished.ts';

/** What came back of a form that was begun and not recorded. */
export interface BegunBefore {
  /** When it was touched last, ms since 1970. */
  readonly keptAt: number;
  /** Lets go of it: the form is as new. */
  readonly anew: () => void;
}

/** A form whose entries are kept on the device for a day, from the first touch until they are recorded. */
export interface TypedForm<T extends Entries> {
  readonly values: T;
  /** What takes the new value of an entry. */
  readonly set: <K extends keyof T>(name: K) => (value: T[K]) => void;
  /** Recorded: nothing is kept any more. What is named is as given, the rest stays as it is. */
  readonly done: (then?: Partial<T>) => void;
  /** null where the form is new. */
  readonly begun: BegunBefore | null;
}

type Entries = Readonly<Record<string, unknown>>;

interface State<T> {
  readonly first: T;
  readonly values: T;
  readonly touched: boolean;
  readonly keptAt: number | null;
}

const untouched = <T>(first: T): State<T> => ({ first, values: first, touched: false, keptAt: null });

/**
 * A form that comes back half typed: `address` names it, `first` is what it begins with, `again` puts what was kept into
 * that (a module's function). Only what a person wrote is kept; what the form guesses is guessed anew. No secret belongs
 * in it.
 */
export function useTyped<T extends Entries>(
  address: readonly string[],
  first: () => T,
  again: (first: T, kept: object) => T,
): TypedForm<T> {
  const id = useUnfinishedId(address);
  const [state, setState] = useState<State<T>>(() => untouched(first()));
  useEffect(() => {
    let wanted = true;
    void entriesOf(id).then((kept) => {
      if (!wanted || kept === null) return;
      // Whoever began to write in the meantime is not written over.
      setState((before) =>
        before.touched ? before : { ...before, values: again(before.first, kept.entries), keptAt: kept.keptAt },
      );
    });
    return () => {
      wanted = false;
    };
  }, [id, again]);
  useEffect(() => {
    if (!state.touched) return;
    keepUnfinished({ id, keptAt: Date.now(), entries: entriesGiven(state.values, state.first) });
  }, [id, state]);
  const letGo = (next: State<T>): void => {
    forgetUnfinished(id);
    setState(next);
  };
  return {
    values: state.values,
    set: (name) => (value) =>
      setState((before) => ({ ...before, values: { ...before.values, [name]: value }, touched: true })),
    done: (then = {}) => letGo({ ...untouched(first()), values: { ...state.values, ...then } }),
    begun: state.keptAt === null ? null : { keptAt: state.keptAt, anew: () => letGo(untouched(first())) },
  };
}

/** The same where every entry is a text. */
export const useTypedTexts = <K extends string>(
  address: readonly string[],
  first: () => Readonly<Record<K, string>>,
): TypedForm<Readonly<Record<K, string>>> => useTyped(address, first, textsAgain);

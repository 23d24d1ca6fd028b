import { useEffect, useMemo, useState } from 'react';
import { session, writer } from '../session/session.ts';
import { forgetUnfinished, keepUnfinished, unfinishedOf } from '../store/unfinished.ts';
import type { Typed, Unfinished } from './typed.ts';
import { unfinishedId } from './unfinished.ts';

/** What was begun of a form and not recorded, and what becomes of it. */
export interface Begun {
  readonly id: string;
  readonly kept: Unfinished | null;
  /** Lets go of it: the form is as new. */
  readonly anew: () => void;
}

/** The name under which a form at an address is kept, of whoever writes here. */
export function useUnfinishedId(address: readonly string[]): string {
  const joined = JSON.stringify(address);
  return useMemo(() => unfinishedId(session.get()?.operationId ?? '', writer()?.accountId ?? '', joined), [joined]);
}

/** Looks for what was begun at an address (batch, form, record that is corrected); null until that was read. */
export function useUnfinished(...address: readonly string[]): Begun | null {
  const id = useUnfinishedId(address);
  const [read, setRead] = useState<Omit<Begun, 'anew'> | null>(null);
  useEffect(() => {
    let wanted = true;
    void unfinishedOf(id).then((kept) => {
      if (wanted) setRead({ id, kept });
    });
    return () => {
      wanted = false;
    };
  }, [id]);
  if (read === null || read.id !== id) return null;
  const anew = (): void => {
    forgetUnfinished(id);
    setRead({ id, kept: null });
  };
  return { ...read, anew };
}

/** Keeps what is typed on the device, at every touch, from the first one on. `untouched`: as the form was opened. */
export function useKeptAsTyped(id: string, { answers, when, who, photos }: Typed, untouched: boolean): void {
  useEffect(() => {
    if (!untouched) keepUnfinished({ id, keptAt: Date.now(), answers, when, who, photos });
  }, [id, untouched, answers, when, who, photos]);
}

import { useCallback, useEffect, useMemo, useState } from 'react';
import { session, speaking } from '../session/session.ts';
import { useExternal } from '../store/external.ts';
import { ask, type Answer } from './ask.ts';

/** What a view knows of an answer. What was had before stays in view while it is asked for again. */
export interface Asked<T> {
  readonly value: T | null;
  /** Why there is nothing (or nothing newer). */
  readonly trouble: Exclude<Answer, { kind: 'ok' }> | null;
  readonly loading: boolean;
  /** When `value` came, ms since 1970. */
  readonly since: number | null;
  readonly again: () => void;
}

interface Had {
  readonly value: unknown;
  readonly since: number;
}

/** Answers of this visit, so that going back shows at once what was shown before. */
const had = new Map<string, Had>();

/**
 * Asks for a path below the operation (`/batches`) whenever the view is shown, its path changes or `again` is called.
 * `parse` reads the answer's body and must not change between drawings (a module's function); `null` as path: not yet.
 */
export function useAsked<T>(path: string | null, parse: (body: unknown) => T): Asked<T> {
  const now = useExternal(session);
  const token = now === null ? null : speaking(now);
  const full = path === null || typeof now?.operationId !== 'string' ? null : `/operations/${now.operationId}${path}`;
  const [state, setState] = useState<{
    full: string | null;
    had: Had | null;
    trouble: Asked<T>['trouble'];
    loading: boolean;
  }>(() => ({ full, had: had.get(full ?? '') ?? null, trouble: null, loading: full !== null }));
  const [times, setTimes] = useState(0);
  useEffect(() => {
    if (full === null) return;
    const end = new AbortController();
    setState((before) => ({
      full,
      had: had.get(full) ?? (before.full === full ? before.had : null),
      trouble: null,
      loading: true,
    }));
    void ask(full, { signal: end.signal }).then((answer) => {
      if (end.signal.aborted) return;
      if (answer.kind === 'ok') {
        const got = { value: answer.body, since: Date.now() };
        had.set(full, got);
        setState({ full, had: got, trouble: null, loading: false });
      } else setState((before) => ({ ...before, trouble: answer, loading: false }));
    });
    return () => end.abort();
  }, [full, times, token]);
  const again = useCallback(() => setTimes((n) => n + 1), []);
  const shown = state.full === full ? state.had : (had.get(full ?? '') ?? null);
  const value = useMemo(() => (shown === null ? null : parse(shown.value)), [shown, parse]);
  return {
    value,
    trouble: state.trouble,
    loading: state.loading,
    since: shown?.since ?? null,
    again,
  };
}

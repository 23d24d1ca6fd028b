import { useEffect, useState } from 'react';
import { useNow } from '../clock/useNow.ts';
import { standing } from '../judge/judge.ts';
import type { Standing } from '../judge/questions.ts';
import { useJudged } from '../judge/useJudged.ts';
import { session } from '../session/session.ts';
import { useExternal } from '../store/external.ts';
import { keepShown, lastShown } from '../store/shown.ts';
import type { TanksView } from './model.ts';

/** Rises with every change of what a tank's picture is made of: an older picture is not drawn. */
const edition = 1;

export type TanksState =
  | { readonly kind: 'ready'; readonly view: TanksView; readonly fresh: boolean }
  | { readonly kind: Exclude<Standing['kind'], 'ready'> };

/** The tanks as they were judged last on this device, at once, and as they are judged now as soon as they are. */
export function useTanks(): TanksState {
  const now = useNow();
  const operationId = useExternal(session)?.operationId ?? '';
  const { kind } = useExternal(standing);
  const [shown, setShown] = useState<{ readonly of: string; readonly view: TanksView } | null>(null);
  const view = useJudged('tanks', { now }, operationId);
  useEffect(() => {
    void lastShown(operationId).then((kept) => {
      const known = isShown(kept) ? kept.view : null;
      if (known !== null) setShown({ of: operationId, view: known });
    });
  }, [operationId]);
  useEffect(() => {
    if (view !== null) keepShown(operationId, { edition, view });
  }, [operationId, view]);
  if (view !== null) return { kind: 'ready', view, fresh: true };
  if (kind === 'failed' || kind === 'empty') return { kind };
  return shown !== null && shown.of === operationId
    ? { kind: 'ready', view: shown.view, fresh: false }
    : { kind: 'loading' };
}

/** This app wrote it, in this edition: its parts are what they were. */
const isShown = (kept: unknown): kept is { readonly view: TanksView } =>
  typeof kept === 'object' && kept !== null && Reflect.get(kept, 'edition') === edition;

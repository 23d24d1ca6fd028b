import { useEffect, useRef } from 'react';
import { whenText } from '../clock/text.ts';
import { useNow } from '../clock/useNow.ts';
import { settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import type { BegunBefore } from '../tank/useTyped.ts';
import { useWordsOf } from '../words/useWords.ts';
import { deskWords } from './words.ts';

/** Says that a form came back half typed; what is folded around it is unfolded. */
export function BegunNote({ begun, zone }: { readonly begun: BegunBefore; readonly zone: string }) {
  const w = useWordsOf(deskWords);
  const { language } = useExternal(settings);
  const now = useNow();
  const note = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    for (let each = note.current?.closest('details'); each; each = each.parentElement?.closest('details'))
      each.open = true;
  }, []);
  return (
    <p ref={note} role="status" className="row small">
      {w.unfinished(whenText(begun.keptAt, zone, language, now))}
      <button type="button" className="chip" onClick={begun.anew}>
        {w.beginAnew}
      </button>
    </p>
  );
}

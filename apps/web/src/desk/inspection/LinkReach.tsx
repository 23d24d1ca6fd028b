import { useEffect, useState } from 'react';
import { dateText, dayText } from '../../clock/text.ts';
import { ask } from '../../http/ask.ts';
import { memberOf, textOf } from '../../http/read.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { inspectionWords } from './words.ts';

interface Reach {
  readonly from: string | null;
  readonly until: string | null;
  readonly expiresAt: string | null;
}

/** How far a reading link reaches and how long it works: what lies outside is not missing from the records. */
export function LinkReach({ zone }: { readonly zone: string }) {
  const w = useWordsOf(inspectionWords);
  const { language } = useExternal(settings);
  const [reach, setReach] = useState<Reach | null>(null);
  useEffect(() => {
    const end = new AbortController();
    void ask('/session', { signal: end.signal }).then((answer) => {
      if (end.signal.aborted || answer.kind !== 'ok' || textOf(answer.body, 'kind') !== 'link') return;
      const reads = memberOf(answer.body, 'reads');
      // A service older than this page does not say.
      if (reads === undefined) return;
      setReach({
        ...{ from: textOf(reads, 'from'), until: textOf(reads, 'until') },
        expiresAt: textOf(answer.body, 'expiresAt'),
      });
    });
    return () => end.abort();
  }, []);
  if (reach === null) return null;
  const { from, until, expiresAt } = reach;
  return (
    <p className="no-print">
      {w.linkReads(
        from === null ? '…' : dateText(from, language),
        until === null ? w.today : dateText(until, language),
      )}
      {expiresAt !== null && ` ${w.linkWorks(dayText(Date.parse(expiresAt), zone, language))}`}
    </p>
  );
}

import { useExternal } from '../store/external.ts';
import { exchange, reception } from '../sync/sync.ts';
import { useWords } from '../words/useWords.ts';
import { Skeleton } from './Skeleton.tsx';

/** Before there are records to show: their shape, or what is needed. */
export function EmptyPage({ kind }: { readonly kind: 'loading' | 'empty' | 'failed' }) {
  const w = useWords();
  const now = useExternal(reception);
  const stuck = now.kind === 'unreachable' || now.kind === 'refused' || now.kind === 'ended';
  if (kind === 'loading' || (kind === 'empty' && !stuck)) return <Skeleton />;
  return (
    <section className="page narrow">
      <h1>{kind === 'empty' ? w.firstTitle : w.failedTitle}</h1>
      <p>{kind === 'empty' ? w.firstText : w.brokeDo}</p>
      {now.why !== undefined && <p role="alert">{now.why}</p>}
      <button type="button" className="button" onClick={() => (kind === 'empty' ? void exchange() : location.reload())}>
        {w.again}
      </button>
    </section>
  );
}

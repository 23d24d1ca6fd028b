import { Told } from '../refusals/Told.tsx';
import { useExternal } from '../store/external.ts';
import { exchange, isStuck, reception } from '../sync/sync.ts';
import { useWords } from '../words/useWords.ts';
import { Skeleton } from './Skeleton.tsx';

interface Props {
  readonly kind: 'loading' | 'empty' | 'failed';
  /** The page's heading, where it does not depend on records. */
  readonly title?: string;
}

/** Before there are records to show: their shape, or what is needed. */
export function EmptyPage({ kind, ...heading }: Props) {
  const w = useWords();
  const now = useExternal(reception);
  if (kind === 'loading' || (kind === 'empty' && !isStuck(now.kind))) return <Skeleton {...heading} />;
  return (
    <section className="page narrow">
      <h1>{kind === 'empty' ? w.firstTitle : w.failedTitle}</h1>
      <p>{kind === 'empty' ? w.firstText : w.brokeDo}</p>
      {now.why !== undefined && (
        <p role="alert">
          <Told text={now.why} />
        </p>
      )}
      <button type="button" className="button" onClick={() => (kind === 'empty' ? void exchange() : location.reload())}>
        {w.again}
      </button>
    </section>
  );
}

import type { Batch } from '@furrowmark/domain';
import { Link } from 'wouter';
import { whenText } from '../../clock/text.ts';
import { useNow } from '../../clock/useNow.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';
import { VerdictMark } from '../../verdict/VerdictMark.tsx';
import { useWordsOf } from '../../words/useWords.ts';
import { onSeason, type Ready } from '../ready.tsx';
import { SignForm } from './SignForm.tsx';
import { reviewWords } from './words.ts';

/** Closed batches without a signature over all their records, the oldest first. */
export default onSeason(function ReviewsPage({ local }) {
  const w = useWordsOf(reviewWords);
  const waiting = local.season
    .batches()
    .filter((batch) => batch.closed !== null && local.engine.rules.outsideSignatures(batch)?.length !== 0)
    .toSorted((a, b) => (a.closed?.at.at ?? 0) - (b.closed?.at.at ?? 0));
  return (
    <section className="page">
      <h1>{w.title}</h1>
      <p className="faint">{w.intro}</p>
      {waiting.length === 0 && <p role="status">{w.none}</p>}
      <ul className="list">
        {waiting.map((batch) => (
          <li key={batch.id}>
            <Waiting local={local} batch={batch} />
          </li>
        ))}
      </ul>
    </section>
  );
});

function Waiting({ local, batch }: { readonly local: Ready; readonly batch: Batch }) {
  const w = useWordsOf(reviewWords);
  const { language } = useExternal(settings);
  const now = useNow();
  const { engine, season } = local;
  const outcomes = engine.rules.judgeBatch(season, batch.id, now);
  const changed = engine.rules.outsideSignatures(batch);
  return (
    <article className="card" aria-labelledby={`review-${batch.id}`}>
      <header className="row spread">
        <h2 id={`review-${batch.id}`}>{batch.code}</h2>
        <span className="row">
          {(['broken', 'caution', 'unknown'] as const).map((verdict) => {
            const count = outcomes.filter(({ outcome }) => outcome === verdict).length;
            return count === 0 ? null : <VerdictMark key={verdict} verdict={verdict} word={String(count)} />;
          })}
        </span>
      </header>
      <p className="faint small">
        {batch.closed !== null && w.closed(whenText(batch.closed.at.at, season.timeZone, language, now))}
        {changed !== null && ` · ${w.changed(changed.length)}`}
      </p>
      <p>
        <Link href={`/batch/${batch.id}`} className="button quiet">
          {w.open} {batch.code}
        </Link>
      </p>
      <details>
        <summary>
          {w.sign} {batch.code}
        </summary>
        <SignForm local={local} batchId={batch.id} />
      </details>
    </article>
  );
}

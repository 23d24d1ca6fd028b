import type { Batch } from '@furrowmark/domain';
import { Link } from 'wouter';
import { volumeOf, weighOut, type WeighOutLine } from '../lots/weighOut.ts';
import { measureName } from '../quantity/measures.ts';
import { shownQuantity } from '../quantity/text.ts';
import { whoHere } from '../records/person.ts';
import type { LocalSeason } from '../season/local.ts';
import { useTankWords } from './useTank.ts';
import { keep, recordOf } from './write.ts';

/** What to weigh for this fill, from which lot; each is in with one touch. */
export function WeighOut({
  local,
  batch,
  now,
}: {
  readonly local: LocalSeason;
  readonly batch: Batch;
  readonly now: number;
}) {
  const { w, language, units } = useTankWords();
  const { engine, season } = local;
  const lines = weighOut(engine, season, batch, now, w);
  const volume = volumeOf(batch);
  const recipe = batch.recipeId === null ? undefined : season.recipe(batch.recipeId, now);
  if (lines.length === 0 || volume === null || recipe === undefined || lines.every(({ isIn }) => isIn)) return null;
  const nameOf = ({ measureId }: WeighOutLine['amount']): string | undefined =>
    measureId === undefined ? undefined : measureName(season, measureId);
  const text = (quantity: WeighOutLine['amount']): string =>
    shownQuantity(quantity, language, units, engine, nameOf(quantity));
  const put = (line: WeighOutLine): void => {
    if (line.lot === null) return;
    const data = { batchId: batch.id, lotId: line.lot.id, quantity: line.amount };
    const performedBy = whoHere(season) ?? undefined;
    void keep(local, [recordOf(local, { type: 'batch.ingredientAdded', data, at: Date.now(), performedBy })]);
  };
  return (
    <section className="card">
      <h2>{w.weighOut}</h2>
      <p className="faint small">{w.weighOutFor(text(volume), recipe.data.code)}</p>
      <ul className="weigh-out">
        {lines.map((line) => (
          <li key={line.materialId}>
            <span className="weigh-amount">{text(line.amount)}</span>
            <span className="weigh-what">
              {line.name} <span className="faint small">{line.lot?.code ?? w.noLot}</span>
            </span>
            {line.isIn ? (
              <span className="verdict met">
                <span aria-hidden="true">●</span>
                {w.isIn}
              </span>
            ) : line.lot === null || (line.amount.unit === '{measure}' && nameOf(line.amount) === undefined) ? (
              <Link href={`/tank/${batch.id}/record/ingredient`} className="button quiet">
                {w.otherLot}
              </Link>
            ) : (
              <button type="button" className="button" onClick={() => put(line)}>
                {w.itIsIn}
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

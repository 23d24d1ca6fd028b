import type { Batch } from '@furrowmark/domain';
import { quantityText, roundText, unitText } from '../quantity/text.ts';
import type { LocalSeason } from '../season/local.ts';
import { useTankWords } from '../tank/useTank.ts';
import { useWordsOf } from '../words/useWords.ts';
import { batchWords } from './words.ts';

/** Where the volume went, and what became of each lot. */
export function Account({ local, batch }: { readonly local: LocalSeason; readonly batch: Batch }) {
  const w = useWordsOf(batchWords);
  const { language } = useTankWords();
  const { engine, season } = local;
  const written = batch.fills[0]?.quantity.unit ?? 'L';
  const unit = engine.domain.dimensionOf(written) === 'volume' ? written : 'L';
  const { volume } = batch;
  const amount = (litres: Batch['volume']['filledL']): string => {
    const value = engine.domain.numberIn({ value: litres, unit: 'L' }, unit) ?? 0;
    return `${roundText(Math.abs(value) < 1e-9 ? 0 : value, language, 4)} ${unitText(unit, language)}`;
  };
  const lines = [
    [w.filled, volume.filledL],
    [w.putBack, volume.putBackL],
    [w.drawn, volume.drawnL],
    [w.supplied, volume.suppliedL],
    [w.lost, volume.lostL],
    [w.disposed, volume.disposedL],
    [w.remaining, volume.remainingL ?? batch.content.at(-1)?.litres ?? null],
    [w.unaccounted, volume.unaccountedL],
  ] as const;
  return (
    <section className="card" aria-labelledby="account">
      <h2 id="account">{w.account}</h2>
      <table>
        <tbody>
          {lines.map(([name, litres], i) =>
            litres === null || (litres.isZero() && i > 0 && i < 6) ? null : (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td className="number">{amount(litres)}</td>
              </tr>
            ),
          )}
        </tbody>
      </table>
      {batch.lotAccount.length > 0 && (
        <div className="table-wrap" tabIndex={0} role="region" aria-label={w.lots}>
          <table>
            <thead>
              <tr>
                <th scope="col">{w.lot}</th>
                <th scope="col" className="number">
                  {w.added}
                </th>
                <th scope="col" className="number">
                  {w.drawn}
                </th>
                <th scope="col" className="number">
                  {w.left}
                </th>
              </tr>
            </thead>
            <tbody>
              {batch.lotAccount.map(({ lotId, added, drawn, left }) => {
                const lotUnit = season.unitOfLot(lotId) ?? '';
                const text = (value: typeof added): string =>
                  quantityText({ value: Number(value.toPrecision(4)), unit: lotUnit }, language);
                return (
                  <tr key={lotId}>
                    <th scope="row">
                      {season.lot(lotId)?.code ?? ''}{' '}
                      <span className="faint small">
                        {season.material(season.lot(lotId)?.materialId ?? '')?.registered.name ?? ''}
                      </span>
                    </th>
                    <td className="number">{text(added)}</td>
                    <td className="number">{text(drawn)}</td>
                    <td className="number">{text(left)}</td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}

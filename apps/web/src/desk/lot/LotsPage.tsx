import type { Lot } from '@furrowmark/domain';
import { Link } from 'wouter';
import { dateText, dayText } from '../../clock/text.ts';
import { useNow } from '../../clock/useNow.ts';
import { byExpiry, leftOf, troubleOf } from '../../lots/lots.ts';
import { roundText, unitText } from '../../quantity/text.ts';
import { useTankWords } from '../../tank/useTank.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { FileButton } from '../FileButton.tsx';
import { onSeason, type Ready } from '../ready.tsx';
import { ReceiveForm } from './ReceiveForm.tsx';
import { lotWords } from './words.ts';

/** Every lot: what is left, when it expires, whether it may be used. */
export default onSeason(function LotsPage({ local }) {
  const w = useWordsOf(lotWords);
  const lots = local.season.lots().toSorted(byExpiry);
  const gone = lots.filter((lot) => (leftOf(lot) ?? 1) <= 1e-9);
  const here = lots.filter((lot) => !gone.includes(lot));
  return (
    <section className="page">
      <header className="row spread">
        <h1>{w.title}</h1>
        <FileButton report="stock.pdf" name="stock.pdf" label="PDF" />
      </header>
      <p className="faint">{w.intro}</p>
      <div className="card">
        {here.length === 0 ? <p>{w.noneHere}</p> : <LotTable local={local} lots={here} label={w.title} />}
      </div>
      {gone.length > 0 && (
        <details className="card">
          <summary>
            {w.showEmpty}: {gone.length}
          </summary>
          <LotTable local={local} lots={gone} label={w.showEmpty} />
        </details>
      )}
      <details className="card no-print">
        <summary>{w.receive}</summary>
        <ReceiveForm local={local} />
      </details>
    </section>
  );
});

function LotTable({
  local,
  lots,
  label,
}: {
  readonly local: Ready;
  readonly lots: readonly Lot[];
  readonly label: string;
}) {
  const w = useWordsOf(lotWords);
  const { w: tank, language } = useTankWords();
  const now = useNow();
  const { engine, season } = local;
  const today = engine.domain.dateOn(now, season.timeZone);
  return (
    <div className="table-wrap" tabIndex={0} role="region" aria-label={label}>
      <table>
        <thead>
          <tr>
            <th scope="col">{w.lot}</th>
            <th scope="col">{w.material}</th>
            <th scope="col" className="number">
              {w.left}
            </th>
            <th scope="col">{w.expires}</th>
            <th scope="col">{w.received}</th>
            <th scope="col">{w.state}</th>
          </tr>
        </thead>
        <tbody>
          {lots.map((lot) => {
            const left = leftOf(lot);
            const trouble = troubleOf(season, lot, today, tank);
            const unit = unitText(season.unitOfLot(lot.id) ?? lot.quantity.unit, language);
            return (
              <tr key={lot.id}>
                <th scope="row">
                  <Link href={`/lot/${lot.id}`} className="row-link">
                    {lot.code}
                  </Link>
                </th>
                <td>{season.material(lot.materialId)?.registered.name ?? ''}</td>
                <td className="number">
                  {left === null ? '?' : roundText(Math.abs(left) < 1e-9 ? 0 : left, language, 4)} {unit}
                </td>
                <td className="day">{lot.expiresOn === undefined ? '' : dateText(lot.expiresOn, language, now)}</td>
                <td className="day">{dayText(lot.at.at, season.timeZone, language, now)}</td>
                <td>
                  {trouble === null ? (
                    <span className="faint">{w.usable}</span>
                  ) : (
                    <strong className="verdict broken">✕ {trouble}</strong>
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}

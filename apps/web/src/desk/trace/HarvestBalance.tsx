import type { Harvest } from '@furrowmark/domain';
import { dayText } from '../../clock/text.ts';
import { useNow } from '../../clock/useNow.ts';
import { placesText, quantityText, unitText } from '../../quantity/text.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';
import { useWordsOf } from '../../words/useWords.ts';
import type { Ready } from '../ready.tsx';
import { traceWords } from './words.ts';

/** What was harvested, what was shipped of it, and what is left by the books. */
export function HarvestBalance({ local, harvest }: { readonly local: Ready; readonly harvest: Harvest }) {
  const w = useWordsOf(traceWords);
  const { language } = useExternal(settings);
  const now = useNow();
  const { engine, season } = local;
  const { unit, lines } = engine.domain.harvestAccount(season, harvest);
  return (
    <div className="card">
      <h2>{w.balanceOf(harvest.code)}</h2>
      <div className="table-wrap" tabIndex={0} role="region" aria-label={w.balanceOf(harvest.code)}>
        <table>
          <thead>
            <tr>
              <th scope="col">{w.what}</th>
              <th scope="col" className="number">
                {w.quantity}
              </th>
              <th scope="col" className="number">
                {w.left}
              </th>
            </tr>
          </thead>
          <tbody>
            {lines.map(({ recordId, at, quantity, to, left }) => (
              <tr key={recordId}>
                <td>
                  {to === undefined ? w.harvested : w.shippedTo(to)}
                  <br />
                  <span className="faint small">{dayText(at.at, season.timeZone, language, now)}</span>
                </td>
                <td className="number">{quantityText(quantity, language)}</td>
                <td className="number">
                  {left === null || unit === null
                    ? '?'
                    : `${placesText(left.toNumber(), language, 3)} ${unitText(unit, language)}`}
                  {left?.lt(0) === true && <strong className="verdict broken"> ✕ {w.tooMuch}</strong>}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {lines.some(({ left }) => left === null) && <p className="faint small">{w.unlike}</p>}
    </div>
  );
}

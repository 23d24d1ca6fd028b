import { whenText } from '../../clock/text.ts';
import { roundText, unitText } from '../../quantity/text.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';
import { useWordsOf } from '../../words/useWords.ts';
import type { Ready } from '../ready.tsx';
import type { PlannedBrew } from './planned.ts';
import { planWords } from './words.ts';

/** One brew as a list to work through, on paper or on the phone. */
export function WorkSheet({ local, brew }: { readonly local: Ready; readonly brew: PlannedBrew }) {
  const w = useWordsOf(planWords);
  const { language } = useExternal(settings);
  const { engine, season } = local;
  const vessel = season.vessel(brew.vesselId);
  const at = (text: string): string => whenText(Date.parse(text), season.timeZone, language, 0);
  const amount = ({ value, unit }: { value: number; unit: string }): string =>
    `${roundText(value, language, 4)} ${unitText(unit, language)}`;
  const code = vessel === undefined ? '' : engine.domain.asOf(vessel, Date.now()).code;
  const times = [
    [w.fillBy, at(brew.fillBy)],
    [w.airOn, at(brew.airOnAt)],
    [w.ingredients, at(brew.ingredientsAt)],
    [w.airOff, at(brew.airOffAt)],
    [w.apply, w.applyFromTo(at(brew.applyFrom), at(brew.applyBy))],
    [w.loads, brew.loads === null ? w.loadsUnknown : String(brew.loads)],
  ] as const;
  return (
    <section className="card" aria-label={w.sheet(code, amount(brew.volume))}>
      <h2>{w.sheet(code, amount(brew.volume))}</h2>
      <dl className="facts">
        {times.map(([name, text]) => (
          <div key={name} className="fact">
            <dt>{name}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      {brew.ingredients.length > 0 && (
        <>
          <h3>{w.weigh}</h3>
          <ul>
            {brew.ingredients.map(({ materialId, quantity, lots }) => (
              <li key={materialId} className="check-line">
                <span>
                  <strong>{amount(quantity)}</strong> {season.material(materialId)?.registered.name ?? ''}
                  {lots.map(({ lotId, quantity: part }) => (
                    <span key={lotId} className="faint">
                      {' '}
                      · {season.lot(lotId)?.code ?? ''} {amount(part)}
                    </span>
                  ))}
                </span>
              </li>
            ))}
          </ul>
        </>
      )}
      <h3>{w.goesTo}</h3>
      <ul>
        {brew.fields.map(({ fieldId, volume, loads }, i) => (
          <li key={(fieldId ?? '') + String(i)} className="check-line">
            <span>
              {fieldId === null ? '' : (season.field(fieldId)?.registered.code ?? '')} · {amount(volume)}
              {loads !== null && <span className="faint"> · {w.nLoads(loads)}</span>}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

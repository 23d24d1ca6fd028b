import type { Lot } from '@furrowmark/domain';
import { whenText } from '../../clock/text.ts';
import { useNow } from '../../clock/useNow.ts';
import { leftOf } from '../../lots/lots.ts';
import { roundText, unitText } from '../../quantity/text.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { FileButton } from '../FileButton.tsx';
import type { Ready } from '../ready.tsx';
import { traceWords } from './words.ts';

/**
 * What must be known within the hour of a recall: what is left, what has it in it, where it went, who got it. Of a lot
 * that is not recalled it is an exercise, and says so.
 */
export function RecallSheet({ local, lot }: { readonly local: Ready; readonly lot: Lot }) {
  const w = useWordsOf(traceWords);
  const { language } = useExternal(settings);
  const now = useNow();
  const { engine, season } = local;
  const recall = lot.recalls.at(-1);
  const trace = engine.domain.trace(season, { kind: 'lot', id: lot.id }, 'forward');
  if (trace === null) return null;
  const left = leftOf(lot);
  const unit = season.unitOfLot(lot.id) ?? lot.quantity.unit;
  const title = recall === undefined ? w.recallExercise(lot.code) : w.recall(lot.code);
  const lists = [
    [w.batches, trace.reached.batches.map(({ code }) => code)],
    [w.fields, trace.reached.fields.map(({ code }) => code)],
    [w.harvests, trace.reached.harvests.map(({ code }) => code)],
    [
      w.shipments,
      trace.reached.harvests.flatMap(({ id, code }) =>
        (season.harvest(id)?.shipments ?? []).map(({ data }) => `${code} → ${data.to} (${data.reference})`),
      ),
    ],
  ] as const;
  return (
    <section className={recall === undefined ? 'card' : 'card recall'} aria-labelledby="recall">
      <h2 id="recall">{title}</h2>
      {recall === undefined ? (
        <p>
          <strong>○ {w.exerciseSays(lot.code)}</strong>
        </p>
      ) : (
        <p>
          <strong>✕ {w.recallWhy(recall.data.reason)}</strong> ·{' '}
          {whenText(recall.at.at, season.timeZone, language, now)}
        </p>
      )}
      <p>{recall === undefined ? w.exerciseDo : w.recallDo}</p>
      <dl className="facts">
        <div className="fact">
          <dt>{w.inStock}</dt>
          <dd>{left === null ? '?' : `${roundText(left, language, 4)} ${unitText(unit, language)}`}</dd>
        </div>
        {lists.map(([name, codes]) => (
          <div key={name} className="fact">
            <dt>{name}</dt>
            <dd>{codes.length === 0 ? w.none : codes.join(', ')}</dd>
          </div>
        ))}
      </dl>
      <p className="no-print">
        <FileButton
          report={`recall-sheet.pdf?lot=${lot.id}`}
          name={`recall-${recall === undefined ? 'exercise-' : ''}${lot.code}.pdf`}
          label={`${title} (${w.pdf})`}
        />
      </p>
    </section>
  );
}

import type { Figure, Outcome } from '@furrowmark/rules';
import { roundText } from '../quantity/text.ts';
import { Unfold } from '../app/Unfold.tsx';
import type { Engine } from '../season/engine.ts';
import { settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import type { Language } from '../words/catalogue.ts';
import { useWordsOf } from '../words/useWords.ts';
import { batchWords } from '../batch/words.ts';
import { figureText, OutcomeText } from './OutcomeText.tsx';
import { ruleTitle } from './rules.ts';
import { VerdictMark } from './VerdictMark.tsx';
import './verdict.css';

interface Props {
  readonly engine: Engine;
  readonly outcomes: readonly Outcome[];
  /** Called when a record behind a verdict is chosen. */
  readonly onRecord?: (recordId: string) => void;
  /** How a record is named: its line. */
  readonly recordText?: (recordId: string) => string | null;
}

const settled: ReadonlySet<string> = new Set(['met', 'notApplicable']);

/** The verdicts, worst first; each opens to its figures, its reason, its source and its records. */
export function Verdicts({ engine, outcomes, onRecord, recordText }: Props) {
  const w = useWordsOf(batchWords);
  const sorted = outcomes.toSorted((a, b) => engine.rules.worseFirst(a.outcome, b.outcome));
  const open = sorted.filter(({ outcome }) => !settled.has(outcome));
  const rest = sorted.filter(({ outcome }) => settled.has(outcome));
  const show = (outcome: Outcome) => (
    <li key={outcome.findingId}>
      <OneVerdict {...{ engine, outcome, onRecord, recordText }} />
    </li>
  );
  return (
    <div className="verdicts">
      <ul>{open.map(show)}</ul>
      {rest.length > 0 && (
        <Unfold className="settled" summary={w.settled(rest.length)}>
          {() => <ul>{rest.map(show)}</ul>}
        </Unfold>
      )}
    </div>
  );
}

interface OneProps {
  readonly engine: Engine;
  readonly outcome: Outcome;
  readonly onRecord: Props['onRecord'] | undefined;
  readonly recordText: Props['recordText'] | undefined;
}

/** One verdict. What stands behind it (regulation, plan, own practice) is said before the limit is. */
export function OneVerdict(props: OneProps) {
  const { engine, outcome } = props;
  const w = useWordsOf(batchWords);
  const { language } = useExternal(settings);
  const own = engine.rules.ownWord(outcome.basis, outcome.outcome, engine.rules.ruleById(outcome.ruleId) ?? {});
  return (
    <Unfold
      className={`one-verdict ${outcome.outcome}`}
      summary={
        <>
          <VerdictMark verdict={outcome.outcome} {...(own === null ? {} : { word: own[language] })} />
          <span className="verdict-title">{ruleTitle(outcome.ruleId, outcome.title, language)}</span>
          <span className="faint small">{w[`basis_${outcome.basis}`]}</span>
          <span className="verdict-says">
            <OutcomeText outcome={outcome} untitled />
          </span>
        </>
      }
    >
      {() => <Working {...props} />}
    </Unfold>
  );
}

/** What a verdict rests on: its figures, the rule's reason and source, the records. */
function Working({ engine, outcome, onRecord, recordText }: OneProps) {
  const w = useWordsOf(batchWords);
  const { language } = useExternal(settings);
  const rule = engine.rules.ruleById(outcome.ruleId);
  const inWords = (figure: Figure): Figure =>
    typeof figure.value === 'string' ? { ...figure, value: engine.rules.figureWord(figure.value, language) } : figure;
  const advises = outcome.figures.some(({ advised }) => advised !== undefined);
  return (
    <div className="verdict-body">
      {outcome.figures.length > 0 && (
        <table>
          <thead>
            <tr>
              <th scope="col">{w.figure}</th>
              <th scope="col" className="number">
                {w.value}
              </th>
              {advises && (
                <th scope="col" className="number">
                  {w.advised}
                </th>
              )}
              <th scope="col" className="number">
                {w.limitWord}
              </th>
            </tr>
          </thead>
          <tbody>
            {outcome.figures.map((figure, i) => (
              <tr key={figure.name + String(i)}>
                <td>{engine.rules.figureName(figure.name, language)}</td>
                <td className="number">{figureText(inWords(figure), language)}</td>
                {advises && <td className="number">{limitText(figure.advised, language)}</td>}
                <td className="number">{limitText(figure.limit, language)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {rule !== undefined && (
        <p>
          <strong>{w.why}.</strong> {engine.rules.reasonIn(rule.id, rule.reason, language)}
        </p>
      )}
      <p>
        <strong>{w.source}.</strong> {engine.rules.sourceIn(outcome.citation, language)}
      </p>
      <p className="faint small">{outcome.ruleBookSeq === null ? w.builtIn : w.bookFrom(outcome.ruleBookSeq)}</p>
      {onRecord !== undefined && outcome.recordIds.length > 0 && (
        <div>
          <strong>{w.records}</strong>
          <ul className="verdict-records">
            {outcome.recordIds.map((id) => {
              const text = recordText?.(id) ?? null;
              return text === null ? null : (
                <li key={id}>
                  <button type="button" className="link-button" onClick={() => onRecord(id)}>
                    {text}
                  </button>
                </li>
              );
            })}
          </ul>
        </div>
      )}
    </div>
  );
}

/** A limit as people read it: converted ones have digits that nobody set. */
const limitText = (limit: number | undefined, language: Language): string =>
  limit === undefined ? '' : roundText(limit, language, 5);

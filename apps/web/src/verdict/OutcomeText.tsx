import type { Figure, Outcome } from '@furrowmark/rules';
import { numberText } from '../quantity/text.ts';
import { settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import type { Language } from '../words/catalogue.ts';
import { useWordsOf } from '../words/useWords.ts';
import { batchWords } from '../batch/words.ts';
import { figureName, ruleTitle } from './rules.ts';

/** A figure as it was compared: value or range, unit. */
export function figureText({ value, unit, range }: Figure, language: Language): string {
  const n = (x: number): string => numberText(Number(x.toPrecision(4)), language);
  const text =
    range !== undefined ? `${n(range[0])}–${n(range[1])}` : typeof value === 'number' ? n(value) : (value ?? '–');
  return unit === undefined ? text : `${text} ${unit}`;
}

/**
 * What a rule says of its subject. The rules speak English; in Spanish their title and figures are said in Spanish
 * first, and their own sentence stands below as it is.
 */
interface Props {
  readonly outcome: Outcome;
  /** Beside its title already: not said again. */
  readonly untitled?: boolean;
}

export function OutcomeText({ outcome, untitled = false }: Props) {
  const { language } = useExternal(settings);
  const w = useWordsOf(batchWords);
  if (language === 'en') {
    return (
      <span className="outcome-text">
        <strong>{outcome.about.code}</strong> {outcome.message}
      </span>
    );
  }
  const beside = (word: string, value: number | undefined, unit: string | undefined): readonly string[] =>
    value === undefined
      ? []
      : [`${word.toLowerCase()} ${figureText({ name: '', value, ...(unit === undefined ? {} : { unit }) }, language)}`];
  // A figure in words is English; it stands in the rule's own sentence.
  const figures = outcome.figures.filter(isFigure).map((figure) => {
    const limits = [
      ...beside(w.advised, figure.advised, figure.unit),
      ...beside(w.limitWord, figure.limit, figure.unit),
    ].join(', ');
    return `${figureName(figure.name, language)} ${figureText(figure, language)}${limits === '' ? '' : ` (${limits})`}`;
  });
  const title = untitled ? '' : ruleTitle(outcome.ruleId, outcome.title, language);
  const said = [title, figures.join('; ')].filter((part) => part !== '').join(': ');
  return (
    <span className="outcome-text">
      <strong>{outcome.about.code}</strong> {said === '' ? '' : `${said}. `}
      <span lang="en" className="faint small">
        {outcome.message}
      </span>
    </span>
  );
}

/** A number or a date, not words. */
export const isFigure = ({ value }: Figure): boolean => typeof value !== 'string' || /^\d{4}-\d\d-\d\d/.test(value);

import type { Figure, Outcome } from '@furrowmark/rules';
import { numberText } from '../quantity/text.ts';
import type { Engine } from '../season/engine.ts';
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
export function OutcomeText({ outcome }: { readonly outcome: Outcome; readonly engine?: Engine }) {
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
  const figures = outcome.figures.map((figure) => {
    const limits = [
      ...beside(w.advised, figure.advised, figure.unit),
      ...beside(w.limitWord, figure.limit, figure.unit),
    ].join(', ');
    return `${figureName(figure.name, language)} ${figureText(figure, language)}${limits === '' ? '' : ` (${limits})`}`;
  });
  return (
    <span className="outcome-text">
      <strong>{outcome.about.code}</strong> {ruleTitle(outcome.ruleId, outcome.title, language)}
      {figures.length > 0 && `: ${figures.join('; ')}`}.{' '}
      <span lang="en" className="faint small">
        {outcome.message}
      </span>
    </span>
  );
}

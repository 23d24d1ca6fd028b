import type { Figure, Outcome } from '@furrowmark/rules';
import { factsIn } from '@furrowmark/rules/in-words';
import { numberText } from '../quantity/text.ts';
import { settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import type { Language } from '../words/catalogue.ts';
import { ruleTitle } from './rules.ts';

/** A figure as it was compared: value or range, unit. */
export function figureText({ value, unit, range }: Figure, language: Language): string {
  const n = (x: number): string => numberText(Number(x.toPrecision(4)), language);
  const text =
    range !== undefined ? `${n(range[0])}–${n(range[1])}` : typeof value === 'number' ? n(value) : (value ?? '–');
  return unit === undefined ? text : `${text} ${unit}`;
}

interface Props {
  readonly outcome: Outcome;
  /** Beside its title already: not said again. */
  readonly untitled?: boolean;
}

/**
 * What a rule says of its subject, in the device's language. In Spanish the verdict's word stands beside it, and the rule's
 * title before it.
 */
export function OutcomeText({ outcome, untitled = false }: Props) {
  const { language } = useExternal(settings);
  const title = untitled || language === 'en' ? '' : `${ruleTitle(outcome.ruleId, outcome.title, language)}: `;
  return (
    <span className="outcome-text">
      <strong>{outcome.about.code}</strong> {title}
      {language === 'en' ? outcome.message : factsIn(outcome, language)}
    </span>
  );
}

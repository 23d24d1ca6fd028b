import type { Season } from '@furrowmark/domain';
import { messageIn, type Outcome } from '../index.ts';

/** Words that English cannot do without and Spanish does not have. */
const english =
  /(?<![\p{L}-])(the|of|was|were|is|are|and|that|with|for|not|by|from|at|it|to|or|an|than|this|which|when|used|known|recorded)(?![\p{L}-])/iu;

function textsIn(value: unknown, into: Set<string>): void {
  if (typeof value === 'string') into.add(value);
  else if (typeof value === 'object' && value !== null) for (const each of Object.values(value)) textsIn(each, into);
}

/** Sentences with an English word that is not of a text that somebody recorded. */
export function englishIn(recorded: unknown, sentences: readonly string[]): readonly string[] {
  const found = new Set<string>();
  textsIn(recorded, found);
  // The longest first: a note may quote a name. A single word is no text that could hide anything.
  const texts = [...found].filter((text) => / /.test(text)).sort((a, b) => b.length - a.length);
  // A name may begin a sentence.
  const both = texts.flatMap((text) => [text, text.charAt(0).toUpperCase() + text.slice(1)]);
  return sentences.filter((sentence) =>
    english.test(both.reduce((left, text) => left.replaceAll(text, '·'), sentence)),
  );
}

/** The same of what outcomes say in Spanish. */
export const englishLeft = (season: Season, outcomes: readonly Outcome[]): readonly string[] =>
  englishIn(
    season.written().map(({ data }) => data),
    outcomes.map((outcome) => messageIn(outcome, 'es')),
  );

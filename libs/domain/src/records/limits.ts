import { memberProblem, type MemberProblem, type Path } from './problem.ts';

/** Deepest nesting of a record, the record itself being 1. */
export const MAX_DEPTH = 20;
/** Longest text, in characters (code points). */
export const MAX_TEXT = 10_000;
/** Significant digits of a number: what every double keeps when written in decimal and read back. */
export const MAX_DIGITS = 15;
/** Numbers stay below this, either sign. */
export const MAX_NUMBER = 1e12;

/** Digits that matter in the shortest decimal text of a number. */
function significantDigits(value: number): number {
  const digits = (String(Math.abs(value)).split('e')[0] ?? '').replace('.', '').replace(/^0+/, '');
  return digits.replace(/0+$/, '').length;
}

function textProblem(text: string): string | null {
  if (text.includes('\0')) return 'holds a NUL character: remove it';
  if (!text.isWellFormed()) return 'holds half of a character (a lone surrogate): type the text again';
  if (text.length > MAX_TEXT && [...text].length > MAX_TEXT)
    return `is longer than ${String(MAX_TEXT)} characters: shorten it, or attach it as a document`;
  return null;
}

function numberProblem(value: number): string | null {
  if (!Number.isFinite(value)) return 'must be a finite number';
  if (Math.abs(value) >= MAX_NUMBER) return 'is too large: numbers stay below 1,000,000,000,000';
  if (significantDigits(value) > MAX_DIGITS)
    return `has more than ${String(MAX_DIGITS)} significant digits: round it to what was read`;
  return null;
}

/**
 * What is wrong with texts, numbers and nesting anywhere in a value that came from JSON, whatever it is meant to be:
 * what the log's canonical text could not keep exactly, or would keep at a cost.
 */
export function limitProblems(value: unknown, path: Path = [], depth = 1): MemberProblem[] {
  if (typeof value === 'string') return found(path, textProblem(value));
  if (typeof value === 'number') return found(path, numberProblem(value));
  if (typeof value !== 'object' || value === null) return [];
  if (depth > MAX_DEPTH) return [memberProblem(path, `lies deeper than ${String(MAX_DEPTH)} levels`)];
  if (Array.isArray(value)) return value.flatMap((item, i) => limitProblems(item, [...path, i], depth + 1));
  return Object.entries(value).flatMap(([name, member]) => {
    const inName = name === '__proto__' ? 'is not a name that a member may have' : textProblem(name);
    return inName === null ? limitProblems(member, [...path, name], depth + 1) : found([...path, name], inName);
  });
}

const found = (path: Path, message: string | null): MemberProblem[] =>
  message === null ? [] : [memberProblem(path, message)];

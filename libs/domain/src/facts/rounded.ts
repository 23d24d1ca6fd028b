import type { Decimal } from '../quantity/decimal.ts';
import { utcText } from '../calendar/instant.ts';
import type { Moment, Span } from './time.ts';

/** A length of time to 6 decimals: a hundredth of a second in hours. */
export function rounded(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}

/** The nearest number to an exact amount, at 15 significant digits. */
export function plain(value: Decimal): number {
  return value.precision() <= 15 ? value.toNumber() : value.toSignificantDigits(15).toNumber();
}

export function timeText(moment: Moment | null | undefined): string | null {
  return moment ? utcText(moment.at).replace('.000Z', 'Z') : null;
}

/** `{name: value}`, and `{nameRange: [least, most]}` where the clock is uncertain. */
export function spanMembers<N extends string>(name: N, span: Span | null): Record<string, number | number[] | null> {
  if (span === null) return { [name]: null };
  const range = [rounded(span.least), rounded(span.most)];
  return {
    [name]: rounded(span.value),
    ...(range[0] === range[1] ? {} : { [`${name}Range`]: range }),
  };
}

/** `{name: time}`, and `{nameRange: [earliest, latest]}` where it is uncertain. */
export function timeMembers(
  name: string,
  moment: Moment | null | undefined,
): Record<string, string | null | (string | null)[]> {
  if (!moment) return { [name]: null };
  const exact = moment.from === moment.to;
  const at = (instant: number) => timeText({ at: instant, from: instant, to: instant });
  return { [name]: timeText(moment), ...(exact ? {} : { [`${name}Range`]: [at(moment.from), at(moment.to)] }) };
}

import { Decimal, decimal, zero } from '../quantity/decimal.ts';

/**
 * Wide enough that the sums and products of a fold never round: amounts and shares are cut to `places` decimal places
 * when they arise, and what is left of a whole is found by subtraction. So in = out to the last digit.
 */
const Wide = Decimal.clone({ precision: 200 });
const places = 24;

export const nothing: Decimal = new Wide(zero);
export const whole: Decimal = new Wide(1);

export function exact(value: number | Decimal): Decimal {
  return new Wide(decimal(value));
}

/** Cut to 24 decimal places, towards zero. */
export function cut(value: Decimal): Decimal {
  return value.toDecimalPlaces(places, Decimal.ROUND_DOWN);
}

/** `part / of`, cut to 24 places. */
export function ratioOf(part: Decimal, of: Decimal): Decimal {
  return cut(exact(part).div(of));
}

export function sum(values: Iterable<Decimal>): Decimal {
  let total = nothing;
  for (const value of values) total = total.plus(value);
  return total;
}

/** Splits an amount by weights; the last part with any weight takes the remainder, so the parts add up exactly. */
export function split(amount: Decimal, weights: readonly Decimal[]): Decimal[] {
  const all = sum(weights);
  const last = weights.findLastIndex((weight) => weight.gt(0));
  let rest = exact(amount);
  return weights.map((weight, i) => {
    const part = i === last ? rest : all.isZero() ? nothing : cut(exact(amount).times(weight).div(all));
    rest = rest.minus(part);
    return part;
  });
}

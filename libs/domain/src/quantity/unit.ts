import { atomWorth, multiplied, unity, type Worth } from './atoms.ts';
import { decimal } from './decimal.ts';
import { nameOf, none, times, type Dimension, type Exponents } from './dimension.ts';

/** A unit as read: its exact worth, and what stands below the fraction bar. */
export interface Unit extends Worth {
  readonly dimension: Dimension;
}

/** Temperature scales with a zero of their own: kelvin = (value + offset) · above / below. */
const scales: ReadonlyMap<string, { readonly offset: string; readonly above: string; readonly below: string }> =
  new Map([
    ['Cel', { offset: '273.15', above: '1', below: '1' }],
    ['[degF]', { offset: '459.67', above: '5', below: '9' }],
    ['K', { offset: '0', above: '1', below: '1' }],
  ]);

export const temperatureScale = (code: string) => scales.get(code);

/**
 * Counted things. A colony forming unit and a most probable number both estimate organisms, and limits are written
 * for either (EPA 2012 Recreational Water Quality Criteria, from memory), so results compare; other counted things
 * (`{tray}`, `{plant}`) are each only themselves. `{count}` is a plain number.
 */
const counted = (annotation: string): Worth => {
  if (annotation === '{count}') return unity;
  const base = annotation === '{CFU}' || annotation === '{MPN}' ? '{organism}' : annotation;
  return isAnnotation(base) ? { ...unity, powers: { [base]: 1 } } : unity;
};
const isAnnotation = (text: string): text is `{${string}}` => text.startsWith('{');

interface Term {
  readonly worth: Worth;
  readonly below: Exponents;
}

const integer = /^\d+/;
const annotation = /^\{[^{}]*\}/;
/** An atom: square-bracketed parts may stand inside (`mm[Hg]`), `10*` and `10^` carry an exponent. */
const simple = /^(?:10[*^]|%|(?:[A-Za-z]+(?:\[[^\]]+\])?|\[[^\]]+\]))/;
const exponent = /^[+-]?\d+/;

/** Reads the UCUM grammar (case sensitive): products `a.b`, quotients `a/b`, both from left to right, and brackets. */
class Reader {
  private rest: string;
  constructor(code: string) {
    this.rest = code;
  }

  whole(): Term | null {
    const leadingBar = this.take('/');
    const term = this.term(leadingBar);
    return this.rest === '' ? term : null;
  }

  private term(inverted: boolean): Term | null {
    let product: Term = { worth: unity, below: none };
    let power = inverted ? -1 : 1;
    for (;;) {
      const next = this.component();
      if (next === null) return null;
      const under = power < 0 ? next.worth.powers : next.below;
      product = { worth: multiplied(product.worth, next.worth, power), below: times(product.below, under) };
      if (this.take('/')) power = -1;
      else if (this.take('.')) power = 1;
      else return product;
    }
  }

  private component(): Term | null {
    if (this.take('(')) {
      const inner = this.term(false);
      return inner !== null && this.take(')') ? inner : null;
    }
    const note = this.match(annotation);
    if (note !== null) return { worth: counted(note), below: none };
    const code = this.match(simple);
    const worth = code === null ? this.number() : this.powered(code);
    // An annotation behind a unit (`kg{dry}`) comments on it and changes nothing.
    this.match(annotation);
    return worth === null ? null : { worth, below: none };
  }

  private number(): Worth | null {
    const digits = this.match(integer);
    if (digits === null || /^0+$/.test(digits)) return null;
    return { ...unity, above: decimal(digits) };
  }

  private powered(code: string): Worth | null {
    const atom = atomWorth(code);
    const power = this.match(exponent);
    if (atom === null) return null;
    const n = power === null ? 1 : Number(power);
    return Math.abs(n) > 12 ? null : multiplied(unity, atom, n);
  }

  private match(pattern: RegExp): string | null {
    const found = pattern.exec(this.rest)?.[0];
    if (found === undefined) return null;
    this.rest = this.rest.slice(found.length);
    return found;
  }

  private take(mark: string): boolean {
    if (!this.rest.startsWith(mark)) return false;
    this.rest = this.rest.slice(mark.length);
    return true;
  }
}

const longestCode = 100;
const known = new Map<string, Unit | null>();
const mostKnown = 2000;

/**
 * Reads a UCUM code. null: not a code, or made of atoms this table does not have, or `{measure}`, whose worth only
 * the registered household measure tells.
 */
export function unitOf(code: string): Unit | null {
  const before = known.get(code);
  if (before !== undefined) return before;
  const unit = read(code);
  // Codes come from outside; a flood of odd ones must not grow the memory.
  if (known.size >= mostKnown) known.clear();
  known.set(code, unit);
  return unit;
}

function read(code: string): Unit | null {
  if (code === '' || code.length > longestCode || code.includes('{measure}')) return null;
  if (temperatureScale(code) !== undefined) return { ...unity, powers: { K: 1 }, dimension: 'temperature' };
  const term = new Reader(code).whole();
  if (term === null) return null;
  if (/^\{[^{}]*\}$/.test(code)) return { ...term.worth, dimension: 'count' };
  return { ...term.worth, dimension: nameOf(term.worth.powers, term.below) };
}

import { later } from '../later.ts';
import { Decimal, decimal } from './decimal.ts';
import { canonical, none, times, type Exponents } from './dimension.ts';

/** A unit's worth in base units (m, kg, s, K, A) as an exact ratio of two finite decimals. */
export interface Worth {
  readonly above: Decimal;
  readonly below: Decimal;
  readonly powers: Exponents;
}

interface Atom extends Worth {
  /** Takes the metric prefixes. */
  readonly metric: boolean;
}

const one = decimal(1);
const m: Exponents = { m: 1 };
const m2: Exponents = { m: 2 };
const m3: Exponents = { m: 3 };
const kg: Exponents = { kg: 1 };
const pascal: Exponents = { kg: 1, m: -1, s: -2 };

const atoms = later((): ReadonlyMap<string, Atom> => {
  const found = new Map<string, Atom>();
  const define = (
    code: string,
    above: string | Decimal,
    powers: Exponents,
    { metric = false, below = '1' }: { metric?: boolean; below?: string } = {},
  ): void => {
    found.set(code, { above: decimal(above), below: decimal(below), powers, metric });
  };

  // Every factor is exact by definition. UCUM 2.1 names the codes; the values are those of NIST Handbook 44, Appendix C
  // (international yard and pound of 1959: 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg; US gallon 231 in³, US bushel
  // 2150.42 in³; litre 1 dm³; standard gravity 9.806 65 m/s²), and the 1985 UK gallon of 4.546 09 L.
  const inch = decimal('0.0254');
  const foot = decimal('0.3048');
  const gallon = inch.pow(3).times(231);
  const imperialGallon = decimal('0.00454609');
  const cubicInch = inch.pow(3);
  const pound = decimal('0.45359237');
  const gravity = decimal('9.80665');

  define('1', '1', none);
  define('10*', '10', none);
  define('10^', '10', none);
  define('%', '0.01', none);
  define('[ppth]', '0.001', none);
  define('[ppm]', '0.000001', none);
  define('[ppb]', '0.000000001', none);

  define('m', '1', m, { metric: true });
  define('[in_i]', inch, m);
  define('[ft_i]', foot, m);
  define('[yd_i]', foot.times(3), m);
  define('[mi_i]', foot.times(5280), m);
  define('[rd_us]', decimal(1200).times('16.5'), m, { below: '3937' });
  define('[ft_us]', '1200', m, { below: '3937' });

  define('ar', '100', m2, { metric: true });
  define('[sin_i]', inch.pow(2), m2);
  define('[sft_i]', foot.pow(2), m2);
  define('[syd_i]', foot.times(3).pow(2), m2);
  // UCUM's acre is the US survey acre, 160 square rods of 16.5 survey feet (1200/3937 m each): 4046.8726… m². The
  // international acre, 4046.8564224 m² (4 millionths smaller), is written `43560.[sft_i]`.
  define('[acr_us]', decimal(43560).times(1200).times(1200), m2, { below: '15499969' });

  define('L', '0.001', m3, { metric: true });
  define('l', '0.001', m3, { metric: true });
  define('[cin_i]', cubicInch, m3);
  define('[cft_i]', foot.pow(3), m3);
  define('[cyd_i]', foot.times(3).pow(3), m3);
  define('[gal_us]', gallon, m3);
  define('[qt_us]', gallon.div(4), m3);
  define('[pt_us]', gallon.div(8), m3);
  define('[gil_us]', gallon.div(32), m3);
  define('[foz_us]', gallon.div(128), m3);
  define('[cup_us]', gallon.div(16), m3);
  define('[tbs_us]', gallon.div(256), m3);
  define('[tsp_us]', gallon.div(768), m3);
  define('[bu_us]', cubicInch.times('2150.42'), m3);
  define('[pk_us]', cubicInch.times('2150.42').div(4), m3);
  define('[gal_br]', imperialGallon, m3);
  define('[qt_br]', imperialGallon.div(4), m3);
  define('[pt_br]', imperialGallon.div(8), m3);
  define('[foz_br]', imperialGallon.div(160), m3);

  define('g', '0.001', kg, { metric: true });
  define('t', '1000', kg, { metric: true });
  define('[lb_av]', pound, kg);
  define('[oz_av]', pound.div(16), kg);
  define('[gr]', pound.div(7000), kg);
  define('[ston_av]', pound.times(2000), kg);
  define('[lton_av]', pound.times(2240), kg);

  define('s', '1', { s: 1 }, { metric: true });
  define('min', '60', { s: 1 });
  define('h', '3600', { s: 1 });
  define('d', '86400', { s: 1 });
  define('wk', '604800', { s: 1 });
  // UCUM's plain year and month are the Julian ones: 365.25 days, and a twelfth of it.
  define('a', '31557600', { s: 1 });
  define('mo', '2629800', { s: 1 });

  define('K', '1', { K: 1 }, { metric: true });

  define('Pa', '1', pascal, { metric: true });
  define('bar', '100000', pascal, { metric: true });
  define('atm', '101325', pascal);
  define('[psi]', pound.times(gravity), pascal, { below: inch.pow(2).toFixed() });
  // UCUM's mercury column: 133.322 kPa per metre.
  define('m[Hg]', '133322', pascal, { metric: true });
  define("[in_i'Hg]", decimal('133322').times(inch), pascal);

  // A logarithm, so no number can convert it: it is only itself.
  define('[pH]', '1', { '{pH}': 1 });

  define('A', '1', { A: 1 }, { metric: true });
  define('S', '1', { A: 2, s: 3, kg: -1, m: -2 }, { metric: true });

  return found;
});

const prefixes: ReadonlyMap<string, string> = new Map([
  ['G', '1e9'],
  ['M', '1e6'],
  ['k', '1e3'],
  ['h', '1e2'],
  ['da', '1e1'],
  ['d', '1e-1'],
  ['c', '1e-2'],
  ['m', '1e-3'],
  ['u', '1e-6'],
  ['n', '1e-9'],
  ['p', '1e-12'],
]);

/** The worth of one UCUM atom, with its prefix where it is metric; null where this table does not know the code. */
export function atomWorth(code: string): Worth | null {
  const atom = atoms().get(code);
  if (atom !== undefined) return atom;
  for (const [prefix, factor] of prefixes) {
    if (!code.startsWith(prefix)) continue;
    const stem = atoms().get(code.slice(prefix.length));
    if (stem?.metric) return { ...stem, above: stem.above.times(factor) };
  }
  return null;
}

/** Atoms known without prefix, for whoever checks the table as a whole. */
export const atomCodes = (): readonly string[] => [...atoms().keys()];

export const unity: Worth = { above: one, below: one, powers: none };

/** `a · b^power`, exact. */
export function multiplied(a: Worth, b: Worth, power = 1): Worth {
  const [up, down] = power < 0 ? [b.below, b.above] : [b.above, b.below];
  const n = Math.abs(power);
  return {
    above: a.above.times(up.pow(n)),
    below: a.below.times(down.pow(n)),
    powers: times(a.powers, b.powers, power),
  };
}

/** Whether both measure the same thing, so that one can be converted into the other. */
export const commensurable = (a: Worth, b: Worth): boolean => canonical(a.powers) === canonical(b.powers);

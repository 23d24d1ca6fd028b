import { UcumLhcUtils } from '@lhncbc/ucum-lhc';
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import checks from '../../../../test/checks/units.json' with { type: 'json' };
import { atomCodes } from './atoms.ts';
import { convert, decimalIn, dimensionOf, kilograms, litres, milligramsPerLitre, numberIn } from './convert.ts';
import { decimal } from './decimal.ts';
import type { Dimension } from './dimension.ts';

/** Units people here write, by what they measure. */
const written = {
  volume:
    'L mL dL m3 [gal_us] [qt_us] [pt_us] [gil_us] [cup_us] [foz_us] [tbs_us] [tsp_us] [cyd_i] [cft_i] [cin_i] [bu_us] [pk_us] [gal_br] [qt_br] [pt_br] [foz_br] 100.mL',
  mass: 'g kg mg ug t [lb_av] [oz_av] [ston_av] [lton_av] [gr]',
  length: '[in_i] [ft_i] [yd_i] [mi_i] m cm mm km [ft_us] [rd_us]',
  area: 'm2 cm2 km2 ar har [acr_us] [sft_i] [syd_i] [sin_i] 43560.[sft_i]',
  time: 's min h d wk mo a',
  temperature: 'Cel [degF] K',
  speed: '[mi_i]/h km/h m/s m/min [ft_i]/min [ft_i]/s',
  flow: '[gal_us]/min [gal_us]/h L/min L/h L/s mL/min [foz_us]/min m3/h',
  areaRate: '[gal_us]/[acr_us] [gal_us]/(43560.[sft_i]) L/har [foz_us]/[sft_i] [qt_us]/[acr_us]',
  massPerArea: '[lb_av]/[acr_us] kg/har g/m2',
  pressure: "Pa kPa hPa bar mbar [psi] atm mm[Hg] [in_i'Hg]",
  concentration: 'mg/L ug/L g/L kg/m3 [oz_av]/[gal_us] [lb_av]/[gal_us]',
  volumePerVolume: 'mL/L [foz_us]/[gal_us] [tbs_us]/[gal_us]',
  uptake: 'mg/L/h mg/L/min mg/(L.h)',
  conductivity: 'mS/cm uS/cm S/m dS/m',
  organismsPerVolume: '{CFU}/(100.mL) {CFU}/dL {MPN}/(100.mL) {CFU}/mL {CFU}/L',
  organismsPerMass: '{CFU}/g {MPN}/g {CFU}/kg',
  number: '1 % [ppm] 10*-6',
} satisfies Partial<Record<Dimension, string>>;

const reference = UcumLhcUtils.getInstance();

describe('units against the outside', () => {
  it.each(checks.exact)('$value $unit is exactly $is $in (NIST Handbook 44, Appendix C)', (row) => {
    expect(decimalIn(row, row.in)?.toFixed()).toBe(row.is);
  });

  it.each(checks.rounded)('$value $unit is $is $in to the digits printed', (row) => {
    expect(decimalIn(row, row.in)?.toSignificantDigits(row.is.replace('.', '').length).toFixed()).toBe(row.is);
  });

  it.each(Object.entries(written))(
    'every pair of %s units agrees with the reference UCUM library',
    (dimension, list) => {
      const codes = list.split(' ');
      for (const from of codes) {
        expect([from, dimensionOf(from)]).toEqual([from, dimension]);
        for (const to of codes) {
          for (const value of [1, 37.5]) {
            const outside = reference.convertUnitTo(from, value, to);
            expect([from, to, outside.status]).toEqual([from, to, 'succeeded']);
            const ours = numberIn({ value, unit: from }, to) ?? NaN;
            const theirs = outside.toVal ?? NaN;
            expect(Math.abs(ours - theirs)).toBeLessThanOrEqual(1e-9 * Math.abs(theirs));
          }
        }
      }
    },
  );

  it('every atom of the table is one of UCUM’s, worth the same', () => {
    const base: Record<string, string> = {
      volume: 'L',
      mass: 'g',
      length: 'm',
      area: 'm2',
      time: 's',
      pressure: 'Pa',
      conductivity: 'S',
      number: '1',
    };
    for (const code of atomCodes().filter((c) => !['10*', '10^', '[pH]', 'K', 'A', 'S'].includes(c))) {
      const to = base[String(dimensionOf(code))] ?? `no base for ${code}`;
      const theirs = reference.convertUnitTo(code, 1, to).toVal ?? NaN;
      expect([code, Math.abs((numberIn({ value: 1, unit: code }, to) ?? NaN) / theirs - 1) < 1e-9]).toEqual([
        code,
        true,
      ]);
    }
  });
});

describe('prefixes', () => {
  it('stand before the atoms that are metric by UCUM, its base units among them, and before no others', () => {
    const isMetric = (code: string) =>
      ['m', 's', 'g', 'K'].includes(code) || reference.getSpecifiedUnit(code, 'validate').unit?.isMetric_ === true;
    // A 1 behind a letter is its power: m1 is a metre.
    const codes = atomCodes().filter((code) => code !== '1');
    for (const prefix of ['k', 'm', 'u'])
      expect(codes.filter((code) => dimensionOf(`${prefix}${code}`) !== null)).toEqual(codes.filter(isMetric));
  });
  it('litres are written with a small or a large letter, with a prefix too: 250 ml of molasses are 0.25 L', () => {
    expect(decimalIn({ value: 250, unit: 'ml' }, 'L')?.toFixed()).toBe('0.25');
    expect(decimalIn({ value: 250, unit: 'mL' }, 'l')?.toFixed()).toBe('0.25');
    expect(decimalIn({ value: 3, unit: 'hl' }, 'hL')?.toFixed()).toBe('3');
  });
});

describe('what cannot be converted', () => {
  it('mass never becomes volume: that takes a weighed household measure', () => {
    expect(decimalIn({ value: 1, unit: '[lb_av]' }, '[gal_us]')).toBeNull();
    expect(litres({ value: 1, unit: 'kg' })).toBeNull();
    expect(kilograms({ value: 1, unit: 'L' })).toBeNull();
  });

  it('a household measure has no worth of its own', () => {
    expect(decimalIn({ value: 1, unit: '{measure}' }, '{measure}')).toBeNull();
    expect(dimensionOf('{measure}')).toBeNull();
  });

  it('trays are not plants, and neither is a plain number', () => {
    expect(decimalIn({ value: 72, unit: '{tray}' }, '{plant}')).toBeNull();
    expect(decimalIn({ value: 72, unit: '{tray}' }, '1')).toBeNull();
    expect(dimensionOf('{tray}')).toBe('count');
  });

  it('only a bare count is a plain number: 72 {count} are 72, and no trays', () => {
    expect(decimalIn({ value: 72, unit: '{count}' }, '1')?.toFixed()).toBe('72');
    expect(decimalIn({ value: 72, unit: '1' }, '{count}')?.toFixed()).toBe('72');
    expect(decimalIn({ value: 72, unit: '{count}' }, '{tray}')).toBeNull();
    expect(dimensionOf('{count}')).toBe('count');
  });

  it('a code of 100 characters is read, one of 101 is not', () => {
    const code = (length: number) => `{${'x'.repeat(length - 2)}}`;
    expect([dimensionOf(code(100)), dimensionOf(code(101))]).toEqual(['count', null]);
  });

  it.each([
    '',
    'ha ',
    'gal',
    'ha',
    '[gal_US]',
    'L/',
    '/',
    'm//s',
    '(m',
    'm)',
    '{',
    'm-',
    '0',
    '[degF]/h',
    'x'.repeat(500),
  ])('“%s” is not a unit', (code) => {
    expect(dimensionOf(code)).toBeNull();
    expect(decimalIn({ value: 1, unit: code }, code)).toBeNull();
  });

  it('says in words why not', () => {
    expect(convert({ value: 1, unit: '[lb_av]' }, 'L')).toEqual({
      kind: 'notConvertible',
      detail: '“[lb_av]” measures mass, “L” measures volume: one cannot be turned into the other.',
    });
    expect(convert({ value: 1, unit: 'gal' }, 'L')).toMatchObject({
      detail: expect.stringContaining('not a UCUM unit'),
    });
  });
});

describe('reading UCUM', () => {
  it('takes quotients and products from left to right, so mg/L/h is per litre and per hour', () => {
    expect(decimalIn({ value: 60, unit: 'mg/L/h' }, 'mg/L/min')?.toFixed()).toBe('1');
    expect(decimalIn({ value: 1, unit: 'm/s.s' }, 'm')?.toFixed()).toBe('1');
  });

  it('a leading bar turns the unit over: 60 an hour are one a minute', () => {
    expect(decimalIn({ value: 60, unit: '/h' }, '/min')?.toFixed()).toBe('1');
  });

  it('kelvins take prefixes: a kilopascal per kelvin is a pascal per millikelvin', () => {
    expect(decimalIn({ value: 1, unit: 'kPa/K' }, 'Pa/mK')?.toFixed()).toBe('1');
  });

  it('takes powers up to twelve either way, and no higher', () => {
    const known = (code: string) => dimensionOf(code) !== null;
    expect(['m12', 'm-12', 'm13', 'm-13'].map(known)).toEqual([true, true, false, false]);
  });

  it('nought with a minus sign, as some programs write it, is nought', () => {
    expect(numberIn({ value: -0, unit: 'L' }, 'mL')).toBe(0);
  });

  it('per 100 mL counts what one dL holds', () => {
    expect(decimalIn({ value: 126, unit: '{CFU}/(100.mL)' }, '{CFU}/dL')?.toFixed()).toBe('126');
    expect(decimalIn({ value: 126, unit: '{MPN}/(100.mL)' }, '{CFU}/mL')?.toFixed()).toBe('1.26');
  });

  it('a remark behind a unit changes nothing', () => {
    expect(decimalIn({ value: 3, unit: '[lb_av]{dry}' }, '[oz_av]')?.toFixed()).toBe('48');
  });

  it('the acre of UCUM is the survey acre, four millionths larger than the international one', () => {
    const ratio = decimalIn({ value: 1, unit: '[acr_us]' }, '43560.[sft_i]');
    // 1 survey foot = 1200/3937 m, so the ratio is (1200 / 3937 / 0.3048)².
    expect(ratio?.toSignificantDigits(12).toFixed()).toBe(
      decimal(1200).div(3937).div('0.3048').pow(2).toSignificantDigits(12).toFixed(),
    );
  });

  it('strips and meters write ppm for mg/L; only the function that says so equates them', () => {
    expect(milligramsPerLitre({ value: 0.5, unit: '[ppm]' })?.toFixed()).toBe('0.5');
    expect(milligramsPerLitre({ value: 500, unit: 'ug/L' })?.toFixed()).toBe('0.5');
    expect(milligramsPerLitre({ value: 500, unit: '[ppb]' })?.toFixed()).toBe('0.5');
    expect(milligramsPerLitre({ value: 500, unit: 'L' })).toBeNull();
    expect(decimalIn({ value: 0.5, unit: '[ppm]' }, 'mg/L')).toBeNull();
  });

  it('keeps what a lab value said about itself', () => {
    expect(convert({ value: 0, unit: 'mg/L', qualifier: 'between', high: 0.5 }, 'ug/L')).toEqual({
      kind: 'converted',
      quantity: { value: 0, unit: 'ug/L', qualifier: 'between', high: 500 },
    });
  });
});

describe('laws', () => {
  // As records write numbers: at most 15 digits, here down to a millionth.
  const value = fc.integer({ min: -1e15 + 1, max: 1e15 - 1 }).map((n) => Number(`${n}e-6`));
  const pair = fc
    .constantFrom(...Object.values(written).map((list) => list.split(' ')))
    .chain((codes) => fc.tuple(fc.constantFrom(...codes), fc.constantFrom(...codes)));

  it('there and back is where it started', () => {
    fc.assert(
      fc.property(value, pair, (v, [a, b]) => {
        const there = decimalIn({ value: v, unit: a }, b);
        const back = there === null ? null : decimalIn({ value: there, unit: b }, a);
        return back !== null && back.minus(decimal(v)).abs().lte(decimal(v).abs().plus(1000).times('1e-40'));
      }),
    );
  });

  it('more stays more', () => {
    fc.assert(
      fc.property(value, value, pair, (v, w, [a, b]) => {
        const [x, y] = [decimalIn({ value: v, unit: a }, b), decimalIn({ value: w, unit: a }, b)];
        return x !== null && y !== null && x.comparedTo(y) === decimal(v).comparedTo(decimal(w));
      }),
    );
  });

  it('a tenth added ten times is one: what was written in decimal stays exact', () => {
    let sum = decimal(0);
    for (let i = 0; i < 10; i++) sum = sum.plus(decimal(0.1));
    expect(sum.eq(1)).toBe(true);
    expect(decimalIn({ value: 0.1, unit: 'L' }, 'mL')?.toFixed()).toBe('100');
  });
});

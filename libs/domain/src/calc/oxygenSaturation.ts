import { z } from 'zod';
import { later } from '../later.ts';
import { milligramsPerLitre, numberIn } from '../quantity/index.ts';
import { concentration, elevation, inUnit, pressure, temperature } from './amounts.ts';
import { calculation, refuse, type Refusal, type Worked } from './calculation.ts';
import { figure } from './figures.ts';

const source =
  'Benson & Krause 1984, Limnology and Oceanography 29(3):620–632, with the coefficients of APHA 4500-O, as used by the USGS; pressure from elevation: US Standard Atmosphere 1976 (ISO 2533)';

/**
 * Dissolved oxygen in water in equilibrium with water-saturated air, mg/L. Temperature in °C, pressure in atm,
 * salinity in g of salt per kg. The equations hold for 0–40 °C, 0–40 g/kg and about 0.5–1.1 atm; up to 45 °C they still
 * agree with printed tables to 0.1 mg/L, beyond they are not to be used.
 * Source: Benson & Krause (1984), coefficients of APHA 4500-O.
 */
export function saturationMgPerL(celsius: number, pressureAtm = 1, salinityPerMille = 0): number {
  const t = celsius + 273.15;
  const fresh = -139.34411 + 1.575701e5 / t - 6.642308e7 / t ** 2 + 1.2438e10 / t ** 3 - 8.621949e11 / t ** 4;
  const salt = salinityPerMille * (0.017674 - 10.754 / t + 2140.7 / t ** 2);
  return Math.exp(fresh - salt) * pressureFactor(celsius, pressureAtm);
}

/** How solubility changes with pressure: water vapour takes its part of it (u), and oxygen is no ideal gas (θ). */
function pressureFactor(celsius: number, p: number): number {
  const t = celsius + 273.15;
  const u = Math.exp(11.8571 - 3840.7 / t - 216961 / t ** 2);
  const theta = 0.000975 - 1.426e-5 * celsius + 6.436e-8 * celsius ** 2;
  return (p * ((1 - u / p) * (1 - theta * p))) / ((1 - u) * (1 - theta));
}

/** Air pressure in atm at a height in metres above sea level, by the standard atmosphere; weather moves it by some 3 %. */
export function pressureAtElevation(metres: number): number {
  return (1 - 2.25577e-5 * metres) ** 5.25588;
}

export interface SaturationAnswer extends Worked {
  readonly saturation: { readonly value: number; readonly unit: 'mg/L' };
  /** The reading as percent of saturation, where a reading was given. */
  readonly percent?: number;
  /** The pressure used. */
  readonly pressure: { readonly value: number; readonly unit: 'kPa' };
}

const input = later(() =>
  z.strictObject({
    temperature: temperature(),
    pressure: pressure().optional(),
    elevation: elevation().optional(),
    salinityPerMille: z.number().min(0, 'must be 0 to 40').max(40, 'must be 0 to 40').optional(),
    reading: concentration().optional(),
  }),
);

/** Oxygen that water can hold at a temperature, and a reading as percent of it. */
export const oxygenSaturation = calculation({
  name: 'oxygen-saturation',
  title: 'Dissolved oxygen at saturation',
  source,
  input,
  work: saturation,
});

function saturation(q: z.infer<ReturnType<typeof input>>): SaturationAnswer | Refusal {
  const celsius = inUnit(q.temperature, 'Cel');
  if (celsius < 0 || celsius > 45) {
    return refuse(['temperature'], 'The equation serves 0 to 45 °C (32 to 113 °F); outside that it says nothing.');
  }
  if (q.pressure !== undefined && q.elevation !== undefined) {
    return refuse(['elevation'], 'Give the pressure at the place or the elevation, not both: they could disagree.');
  }
  const air = airPressure(q);
  if (!(air.atm >= 0.5 && air.atm <= 1.1)) {
    return refuse(
      [q.pressure === undefined ? 'elevation' : 'pressure'],
      'The equation serves 0.5 to 1.1 atm: up to about 5,500 m, and pressures at the place itself.',
    );
  }
  const salinity = q.salinityPerMille ?? 0;
  const value = saturationMgPerL(celsius, air.atm, salinity);
  const reading = q.reading === undefined ? null : (milligramsPerLitre(q.reading)?.toNumber() ?? null);
  const read = reading === null ? null : { reading, share: (100 * reading) / value };
  const cautions = cautionsFor(celsius, read?.share ?? 0);
  return {
    saturation: { value: Number(value.toFixed(4)), unit: 'mg/L' },
    ...(read === null ? {} : { percent: Number(read.share.toFixed(3)) }),
    pressure: { value: Number((air.atm * 101.325).toFixed(3)), unit: 'kPa' },
    working: [
      air.words,
      `${figure(celsius)} °C, ${figure(air.atm)} atm, salinity ${figure(salinity)} g/kg: ${figure(value, 5)} mg/L`,
      ...(read === null
        ? []
        : [`${figure(read.reading)} mg/L ÷ ${figure(value, 5)} mg/L × 100 = ${figure(read.share, 4)} %`]),
    ],
    ...(cautions.length === 0 ? {} : { cautions }),
    source,
  };
}

function airPressure(q: z.infer<ReturnType<typeof input>>): { atm: number; words: string } {
  if (q.pressure !== undefined) {
    const atm = numberIn(q.pressure, 'atm') ?? NaN;
    return { atm, words: `Pressure as given: ${figure(atm * 101.325)} kPa (at the place, not reduced to sea level)` };
  }
  if (q.elevation !== undefined) {
    const metres = inUnit(q.elevation, 'm');
    const atm = pressureAtElevation(metres);
    return { atm, words: `Standard atmosphere at ${figure(metres)} m: ${figure(atm * 101.325)} kPa` };
  }
  return { atm: 1, words: 'No pressure or elevation given: sea level assumed, 101.325 kPa' };
}

function cautionsFor(celsius: number, share: number): string[] {
  return [
    ...(celsius > 40 ? ['Above 40 °C the equation is stretched beyond its published range.'] : []),
    ...(share > 120
      ? ['More than 120 % of saturation points to the probe rather than to the water: check its calibration.']
      : []),
  ];
}

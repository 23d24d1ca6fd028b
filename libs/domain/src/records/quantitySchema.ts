import { z } from 'zod';
import { later } from '../later.ts';
import { decimalIn, dimensionOf, type NamedDimension, type Quantity } from '../quantity/index.ts';
import { measureId } from './ids.ts';
import { impossible } from './members.ts';
import { unitRemedy } from './unitWords.ts';

/** What a member asks of its quantity. */
interface Demand {
  /** null = any unit that is known. */
  readonly dimensions: readonly NamedDimension[] | null;
  /** Bags and buckets: a household measure may stand for it. */
  readonly household?: true;
  readonly mayBeNegative?: true;
}

const written = { value: z.number(), unit: z.string() };
const household = { ...written, measureId: measureId.optional() };
const read = {
  ...written,
  qualifier: z.enum(['<', '>', 'notDetected', 'between']).optional(),
  high: z.number().optional(),
};

type Refuse = (member: string, message: string) => void;
interface Verdicts {
  readonly malformed: Refuse;
  readonly impossible: Refuse;
}

function unitFits(unit: string, { dimensions, household: measures }: Demand): boolean {
  if (unit === '{measure}') return measures === true;
  // pH is a plain number in checks; a pH meter's reading or a laboratory's result carries its unit.
  if (unit === '[pH]') return dimensions === null;
  const dimension = dimensionOf(unit);
  if (dimension === null || dimensions === null) return dimension !== null;
  // Meters and strips for water show ppm; UCUM counts it as a plain ratio.
  if (dimensions.includes('concentration') && (unit === '[ppm]' || unit === '[ppb]')) return true;
  // Of plain numbers only a count is an amount of something; a percentage is not.
  if (dimension === 'number') return dimensions.includes('count') && (unit === '1' || unit.startsWith('{'));
  return dimensions.some((wanted) => wanted === dimension);
}

function checkSign({ value, unit }: Quantity, demand: Demand, { impossible: refuse }: Verdicts): void {
  const kelvin = decimalIn({ value, unit }, 'K');
  if (kelvin?.isNegative() === true) refuse('value', 'lies below absolute zero: check the figure and its unit');
  else if (kelvin === null && value < 0 && demand.mayBeNegative !== true)
    refuse('value', 'must not be negative: write the amount without a sign');
}

function checkRange({ value, qualifier, high }: Quantity, refuse: Verdicts): void {
  if (qualifier === 'between' && high === undefined)
    refuse.malformed('high', 'is missing: “between” needs the upper end');
  if (qualifier !== 'between' && high !== undefined)
    refuse.malformed('high', 'stands only beside the qualifier “between”: add the qualifier or leave this out');
  if (qualifier === 'between' && high !== undefined && high <= value)
    refuse.impossible('high', `is not above ${String(value)}: “value” is the lower end, “high” the upper`);
}

function checkMeasure({ unit, measureId: named }: Quantity, { malformed: refuse }: Verdicts): void {
  if (unit === '{measure}' && named === undefined)
    refuse('measureId', 'is missing: name the registered household measure');
  if (unit !== '{measure}' && named !== undefined)
    refuse('measureId', 'stands only beside the unit {measure}: leave it out, or write that unit');
}

/** A strict quantity, as its member demands it. */
function quantity<S extends z.ZodRawShape>(shape: S, demand: Demand): () => z.ZodObject<S, z.core.$strict> {
  return later(() =>
    z.strictObject(shape).check(({ value, issues }) => {
      const q = value as unknown as Quantity; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- each shape above is a Quantity; the type parameter hides it
      const refuse: Verdicts = {
        malformed: (member, message) => {
          issues.push({ code: 'custom', input: value, path: [member], message });
        },
        impossible: (member, message) => {
          issues.push(impossible(value, member, message));
        },
      };
      if (unitFits(q.unit, demand)) {
        checkSign(q, demand, refuse);
        checkMeasure(q, refuse);
      } else refuse.malformed('unit', unitRemedy(q.unit, demand.dimensions));
      checkRange(q, refuse);
    }),
  );
}

// The types are all `Quantity`: what a member demands of its unit is checked, not written in its type.
type QuantitySchema = () => z.ZodType<Quantity>;

/** A volume, also in buckets or marks on the tote. */
export const volume: QuantitySchema = quantity(household, { dimensions: ['volume'], household: true });
/** An amount of material or produce: mass, volume, or a count of things, also in household measures. */
export const stock: QuantitySchema = quantity(household, { dimensions: ['mass', 'volume', 'count'], household: true });
/** What a household measure is worth: anything but another household measure. */
export const worth: QuantitySchema = quantity(written, { dimensions: ['mass', 'volume', 'count'] });
export const area: QuantitySchema = quantity(written, { dimensions: ['area'] });
export const length: QuantitySchema = quantity(written, { dimensions: ['length'] });
/** Height above the sea; below it is negative. */
export const elevation: QuantitySchema = quantity(written, { dimensions: ['length'], mayBeNegative: true });
export const duration: QuantitySchema = quantity(written, { dimensions: ['time'] });
export const speed: QuantitySchema = quantity(written, { dimensions: ['speed'] });
export const flow: QuantitySchema = quantity(written, { dimensions: ['flow'] });
/** A meter's reading, as are the next two: with a qualifier where it was off the scale or between two marks. */
export const temperature: QuantitySchema = quantity(read, { dimensions: ['temperature'] });
export const conductivity: QuantitySchema = quantity(read, { dimensions: ['conductivity'] });
export const concentration: QuantitySchema = quantity(read, { dimensions: ['concentration'] });
/** A laboratory's result in any known unit. */
export const labResult: QuantitySchema = quantity(read, { dimensions: null });
/** What an instrument showed, in any known unit. A probe in a zero solution may well show less than nothing. */
export const reading: QuantitySchema = quantity(read, { dimensions: null, mayBeNegative: true });

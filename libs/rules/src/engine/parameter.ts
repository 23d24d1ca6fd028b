import { z } from 'zod';

/** What a parameter is for: shown in the rule book, with its unit. */
export interface ParameterNote {
  readonly unit?: string;
  readonly description: string;
  /** Where a regulation itself sets the default: an operation may ask more of itself, not less. */
  readonly regulation?: 'atLeast' | 'atMost';
  /** Of a rule that rests on a regulation or a guideline which leaves this figure open: what is stricter than the default is the operation's own. */
  readonly open?: 'atLeast' | 'atMost';
}

const noted = <S extends z.ZodType>(schema: S, description: string, unit?: string): S =>
  schema.meta(unit === undefined ? { description } : { description, unit });

/** A length of time counts as no longer than this: over 2,700 years, after which every day still has a date. */
export const mostDays = 1_000_000;

/** An amount that may be 0 but not below. */
export const amount = (unit: string, byDefault: number, description: string) =>
  noted(z.number().min(0).default(byDefault), description, unit);

/** A length of time that may be 0 but not below. */
const time = (unit: string, inADay: number, byDefault: number, description: string) =>
  noted(
    z
      .number()
      .min(0)
      .overwrite((value) => Math.min(value, mostDays * inADay))
      .default(byDefault),
    description,
    unit,
  );

export const hours = (byDefault: number, description: string) => time('h', 24, byDefault, description);
export const minutes = (byDefault: number, description: string) => time('min', 24 * 60, byDefault, description);
export const days = (byDefault: number, description: string) => time('d', 1, byDefault, description);
/** Months of the calendar: one that was begun counts as a whole one. */
export const months = (byDefault: number, description: string) =>
  noted(
    z
      .number()
      .min(0)
      .overwrite((value) => Math.ceil(Math.min(value, mostDays / 31)))
      .default(byDefault),
    description,
    'mo',
  );
export const percent = (byDefault: number, description: string) => amount('%', byDefault, description);
/** A temperature; may be below 0. */
export const temperature = (unit: '[degF]' | 'Cel', byDefault: number, description: string) =>
  noted(z.number().default(byDefault), description, unit);

/** A figure that the rule's regulation itself names, as the least or the most. The others are the operation's to set. */
export const byRegulation = <S extends z.ZodType>(asks: 'atLeast' | 'atMost', schema: S): S =>
  schema.meta({ ...schema.meta(), regulation: asks });

/** A figure that the rule's regulation or guideline leaves open, or does not set to be kept: what is stricter is the operation's own. */
export const leftOpen = <S extends z.ZodType>(asks: 'atLeast' | 'atMost', schema: S): S =>
  schema.meta({ ...schema.meta(), open: asks });

/** A rule's parameters: every member has a default, so that an empty object is valid. */
export type ParameterTable = z.ZodObject<Record<string, z.ZodDefault<z.ZodNumber>>>;

/** Unit and description of one parameter, as the rule wrote them. */
export function noteOf(schema: z.ZodType): ParameterNote {
  const meta = schema.meta();
  const unit = meta?.['unit'];
  const regulation = meta?.['regulation'];
  const open = meta?.['open'];
  return {
    description: meta?.description ?? '',
    ...(typeof unit === 'string' ? { unit } : {}),
    ...(regulation === 'atLeast' || regulation === 'atMost' ? { regulation } : {}),
    ...(open === 'atLeast' || open === 'atMost' ? { open } : {}),
  };
}

import { z } from 'zod';
import { isDate, parseInstant } from '../calendar/index.ts';

/** A text that must say something: a code, a name, a reason. */
export const label = z.string().regex(/\S/, 'must not be empty');
/** Any text, an empty one included: a note. */
export const words = z.string();
/** An instant with its offset from UTC, RFC 3339. */
export const instant = z
  .string()
  .refine(
    (text) => parseInstant(text) !== null,
    'must be a date and time that exists, with its offset from UTC, such as 2026-06-03T06:10:00-05:00',
  )
  .meta({ format: 'date-time' });
/** A day in the operation's time zone. */
export const date = z.string().refine(isDate, 'must be a day that exists, such as 2026-06-03').meta({ format: 'date' });
/** A day, or only a year where nobody knows better: an orchard's planting. */
export const dayOrYear = z
  .string()
  .refine(
    (text) => /^\d{4}$/.test(text) || isDate(text),
    'must be a day that exists, such as 2026-04-10, or a year, such as 2019',
  );
export const yesNo = z.enum(['yes', 'no']);
export const yesNoUnknown = z.enum(['yes', 'no', 'unknown']);
/** A number of minutes, not negative. */
export const minutes = z.number().min(0);
/** A whole number, not negative. */
export const count = z.number().int().min(0);
/** SHA-256 in lower-case hexadecimal. */
export const sha256 = z.string().regex(/^[0-9a-f]{64}$/, 'must be a SHA-256 as 64 lower-case hexadecimal digits');
/** A version 1 type name; whether it exists is asked where the record is parsed. */
export const typeName = z.string();

/** Members `from` and `until` of approvals and documents: dates, both inclusive. */
export const period = { from: date, until: date.optional() };

/** An issue that is not about form: the record contradicts itself or nature. */
export const impossible = (input: unknown, member: string, message: string): z.core.$ZodRawIssue => ({
  code: 'custom',
  input,
  path: [member],
  message,
  params: { impossible: true },
});

interface Context {
  readonly value: { readonly from?: string | undefined; readonly until?: string | undefined };
  readonly issues: z.core.$ZodRawIssue[];
}
/** Refuses an `until` that lies before its `from`. */
export function untilAfterFrom({ value, issues }: Context): void {
  if (value.from !== undefined && value.until !== undefined && value.until < value.from)
    issues.push(
      impossible(
        value.until,
        'until',
        `lies before its beginning on ${value.from}: exchange the two dates, or correct the wrong one`,
      ),
    );
}

/** The data of an `X.retired` record. */
export const retirement = <K extends string, I extends z.ZodType>(key: K, id: I) =>
  z.strictObject({ [key]: id, reason: label } as { [P in K]: I } & { reason: typeof label }); // eslint-disable-line @typescript-eslint/consistent-type-assertions -- TypeScript widens a computed key to string

type Exact<M extends z.ZodRawShape> = {
  [K in keyof M]: z.ZodExactOptional<M[K] extends z.ZodOptional<infer I extends z.ZodType> ? I : M[K]>;
};

/**
 * The members of an `X.revised` record: those of the registration, each of which may be left out. The thing's id is
 * added beside them.
 */
export function changesOf<M extends z.ZodRawShape>(members: M): Exact<M> {
  const entries = Object.entries(members).map(([key, schema]) => [
    key,
    z.exactOptional(schema instanceof z.ZodOptional ? schema.unwrap() : schema),
  ]);
  return Object.fromEntries(entries) as Exact<M>; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- fromEntries forgets the keys
}

/** Refuses a revision that changes nothing. `ids` counts the members that only name the thing. */
export const changesSomething =
  (ids: number) =>
  ({ value, issues }: { readonly value: object; readonly issues: z.core.$ZodRawIssue[] }): void => {
    if (Object.keys(value).length <= ids)
      issues.push({
        code: 'custom',
        input: value,
        path: [],
        message: 'changes nothing: name at least one member with its new value',
      });
  };

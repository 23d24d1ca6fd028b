import type { OpenSeason } from '@furrowmark/domain';
import type { z } from 'zod';
import type { ReportContent } from '../content.ts';
import type { Given } from '../telling/index.ts';
import type { Language } from '../words/index.ts';

/** A kind of report, as its file writes it. */
export interface ReportText<P extends z.ZodType> {
  /** The name in the address: `batch-record`. */
  readonly kind: string;
  readonly title: Readonly<Record<Language, string>>;
  /** What must be told to get one: a batch, a period. */
  readonly parameters: P;
  /** Pure: the same records, parameters and clock give the same content. null where the thing asked for is not known. */
  content(season: OpenSeason, parameters: z.output<P>, given: Given): ReportContent | null;
  /** The same facts as JSON-LD of an open standard, for other people's programs. Most kinds have none. */
  linkedData?(season: OpenSeason, parameters: z.output<P>, given: Given): object | null;
}

/** Why a report was not made. */
export interface ReportRefusal {
  readonly reason: 'parameters' | 'unknown';
  /** The parameters' faults, by member. */
  readonly faults: readonly { readonly parameter: string; readonly detail: string }[];
}

/** A kind of report of the catalogue, its parameter types put away. */
export interface ReportKind {
  readonly kind: string;
  readonly title: Readonly<Record<Language, string>>;
  readonly parameters: z.ZodType;
  /** Reads parameters from outside (all values text, as in an address) and makes the report. */
  content(season: OpenSeason, parameters: unknown, given: Given): ReportContent | ReportRefusal;
  /** The same as JSON-LD, from the same parameters; absent where the kind has no such form. */
  linkedData?(season: OpenSeason, parameters: unknown, given: Given): object | ReportRefusal;
}

export const isRefusal = (made: object): made is ReportRefusal => 'reason' in made;

/** Makes a kind of report of the catalogue from its text. */
export function defineReport<P extends z.ZodType>(text: ReportText<P>): ReportKind {
  const reading =
    <T extends object>(make: (season: OpenSeason, parameters: z.output<P>, given: Given) => T | null) =>
    (season: OpenSeason, parameters: unknown, given: Given): T | ReportRefusal => {
      const parsed = text.parameters.safeParse(parameters);
      if (!parsed.success) {
        const faults = parsed.error.issues.flatMap((issue) =>
          issue.code === 'unrecognized_keys'
            ? issue.keys.map((parameter) => ({ parameter, detail: 'is not asked by this report: leave it out' }))
            : [{ parameter: issue.path.join('.'), detail: issue.message }],
        );
        return { reason: 'parameters', faults };
      }
      return make(season, parsed.data, given) ?? { reason: 'unknown', faults: [] };
    };
  const { kind, title, parameters, linkedData } = text;
  return {
    kind,
    title,
    parameters,
    content: reading((...told) => text.content(...told)),
    ...(linkedData === undefined ? {} : { linkedData: reading((...told) => linkedData(...told)) }),
  };
}

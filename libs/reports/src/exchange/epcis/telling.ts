import {
  instantOf,
  spanAt,
  utcText,
  type CurrentRecord,
  type Instant,
  type Moment,
  type Season,
} from '@furrowmark/domain';
import { operationPlace, type Gs1Keys } from './identity.ts';
import type { Place } from './types.ts';

/** What every event is made from. */
export interface Source {
  readonly season: Season;
  readonly keys: Gs1Keys;
}

/** `-05:00`, as the place's clocks stood. */
export function offsetAt(instant: Instant, zone: string): string {
  const minutes = Math.round(spanAt(instant, zone).offset / 60_000);
  const size = Math.abs(minutes);
  const [hours = '', rest = ''] = [Math.floor(size / 60), size % 60].map((each) => String(each).padStart(2, '0'));
  return `${minutes < 0 ? '-' : '+'}${hours}:${rest}`;
}

/** The members about time; an uncertain time says between which moments it lies. */
export function timeOf({ season }: Source, moment: Moment, recordedAt?: string) {
  return {
    eventTime: utcText(moment.at),
    eventTimeZoneOffset: offsetAt(moment.at, season.timeZone),
    ...(recordedAt === undefined ? {} : { recordTime: utcText(instantOf(recordedAt)) }),
    ...(moment.from === moment.to
      ? {}
      : { 'furrowmark:notBefore': utcText(moment.from), 'furrowmark:notAfter': utcText(moment.to) }),
  } as const;
}

/** Where it happened: the place itself within the operation, or only the operation. */
export function placeOf(
  { season, keys }: Source,
  uri?: string,
): { readonly readPoint?: Place; readonly bizLocation?: Place } {
  const whole = operationPlace(season, keys);
  const spot = uri ?? whole;
  return {
    ...(spot === null ? {} : { readPoint: { id: spot } }),
    ...(uri !== undefined ? { bizLocation: { id: uri } } : whole === null ? {} : { bizLocation: { id: whole } }),
  };
}

/** The latest time at which any of these records was recorded. */
export const recordedLast = (records: readonly CurrentRecord[]): string | undefined =>
  records.reduce<string | undefined>(
    (last, { recordedAt }) => (last === undefined || instantOf(recordedAt) > instantOf(last) ? recordedAt : last),
    undefined,
  );

/** A member only where there is something to say. */
export const own = <K extends string>(
  name: K,
  value: string | undefined,
): { readonly [P in `furrowmark:${K}`]?: string } =>
  // eslint-disable-next-line @typescript-eslint/consistent-type-assertions -- TypeScript widens a computed key to string
  (value === undefined || value === '' ? {} : { [`furrowmark:${name}`]: value }) as {
    readonly [P in `furrowmark:${K}`]?: string;
  };

import { isDate, offsetMinutesOf, parseInstant } from '@furrowmark/domain';
import type { WallTime } from './local-time.ts';

/** How figures and dates are written in a file. */
export interface Writing {
  readonly decimal: '.' | ',';
  /** Whether day or month comes first in `6/3/2026`; null while nobody said. */
  readonly dates: 'ymd' | 'mdy' | 'dmy' | null;
}

/** What a cell says, or in words why it says nothing that can be used. */
export type Read<T> = { readonly value: T } | { readonly fault: string };
export const isFault = <T>(read: Read<T>): read is { readonly fault: string } => 'fault' in read;

/** Longer than any figure or time that somebody wrote; what is longer is not looked at digit by digit. */
const longest = 100;

/** A number. Groups of three digits may be set apart by the other mark, a space or an apostrophe. */
export function numberIn(cell: string, { decimal }: Pick<Writing, 'decimal'>): Read<number> {
  if (cell.length > longest) return { fault: 'is too long for a number' };
  const group = decimal === '.' ? ',' : '.';
  const grouped = new RegExp(`^[+-]?\\d{1,3}([${group}\\s'’]\\d{3})+(\\${decimal}\\d+)?$`);
  const plain = new RegExp(`^[+-]?(\\d+(\\${decimal}\\d*)?|\\${decimal}\\d+)([eE][+-]?\\d+)?$`);
  if (!grouped.test(cell) && !plain.test(cell)) {
    const hint = cell.includes(group)
      ? ` (decimals are taken to follow “${decimal}”; say so if they follow “${group}”)`
      : '';
    return { fault: `“${cell}” is no number${hint}` };
  }
  const value = Number(cell.replaceAll(new RegExp(`[${group}\\s'’]`, 'g'), '').replace(decimal, '.'));
  return Number.isFinite(value) ? { value } : { fault: `“${cell}” is no number` };
}

const two = (text: string): string => text.padStart(2, '0');

/** A day, as `2026-06-03`. Which of two small numbers is the month is asked, never guessed. */
export function dateIn(cell: string, { dates }: Pick<Writing, 'dates'>): Read<string> {
  const [, a = '', b = '', c = ''] = /^(\d{1,4})[-/.](\d{1,2})[-/.](\d{1,4})$/.exec(cell) ?? [];
  if (a === '') return { fault: `“${cell}” is no date: write it as 2026-06-03` };
  const yearFirst = a.length === 4;
  if (!yearFirst && c.length !== 4) return { fault: `“${cell}” has no year of four digits: write it as 2026-06-03` };
  // Above 12 it can only be the day; else somebody has to say.
  const order = yearFirst ? 'ymd' : Number(a) > 12 ? 'dmy' : Number(b) > 12 ? 'mdy' : a === b ? 'mdy' : dates;
  if (order === null || (!yearFirst && order === 'ymd'))
    return { fault: `“${cell}” may be two days: say whether the month or the day comes first` };
  if (!yearFirst && dates !== null && dates !== 'ymd' && dates !== order && a !== b)
    return { fault: `“${cell}” is no date with the ${dates === 'mdy' ? 'month' : 'day'} first` };
  const [year, month, day] = order === 'ymd' ? [a, b, c] : order === 'mdy' ? [c, a, b] : [c, b, a];
  const text = `${year}-${two(month)}-${two(day)}`;
  return isDate(text) ? { value: text } : { fault: `“${cell}” is a day that does not exist` };
}

/** A time of day: `18:05`, `6:05:30 PM`. */
export function clockIn(cell: string): Read<Omit<WallTime, 'date'>> {
  const [, h, m, s = '0', half] = /^(\d{1,2}):(\d{2})(?::(\d{2}(?:\.\d+)?))?\s*([AaPp]\.?[Mm]\.?)?$/.exec(cell) ?? [];
  if (h === undefined || m === undefined) return { fault: `“${cell}” is no time of day: write it as 18:05` };
  const [shown, minute, second] = [Number(h), Number(m), Number(s)];
  const wrong = minute > 59 || second >= 60 || (half === undefined ? shown > 23 : shown < 1 || shown > 12);
  if (wrong) return { fault: `“${cell}” is a time that no clock shows` };
  const hour = half === undefined ? shown : (shown % 12) + (half.toLowerCase().startsWith('p') ? 12 : 0);
  return { value: { hour, minute, second } };
}

/** An instant with its offset, or what a clock showed on a day (midnight, where only a day is written). */
export function timeIn(
  cell: string,
  writing: Writing,
): Read<WallTime | { readonly instant: number; readonly offsetMinutes: number }> {
  if (cell.length > longest) return { fault: 'is too long for a time' };
  const instant = parseInstant(cell) ?? parseInstant(cell.replace(/ ([+-]\d\d:\d\d)$/, '$1'));
  if (instant !== null) return { value: { instant, offsetMinutes: offsetMinutesOf(cell) } };
  const [, day = '', clock] = /^([\d/.-]+?)(?:[T,\s]\s*(\d.*))?$/.exec(cell) ?? [];
  const date = dateIn(day === '' ? cell : day, writing);
  if (isFault(date)) return date;
  if (clock === undefined) return { value: { date: date.value, hour: 0, minute: 0, second: 0 } };
  const time = clockIn(clock);
  return isFault(time) ? time : { value: { date: date.value, ...time.value } };
}

const squeezed = (text: string): string =>
  text
    .normalize('NFD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]/gu, '');

/** One of a few words, whatever the case and spaces; `said` has other words for them. */
export function choiceIn<const T extends string>(
  cell: string,
  choices: readonly T[],
  said: Readonly<Record<string, T>> = {},
): Read<T> {
  const text = squeezed(cell);
  const other = Object.entries(said).find(([word]) => squeezed(word) === text)?.[1];
  const found = choices.find((choice) => squeezed(choice) === text) ?? other;
  return found === undefined ? { fault: `“${cell}” is none of: ${choices.join(', ')}` } : { value: found };
}

export const yesNo = {
  y: 'yes',
  true: 'yes',
  '1': 'yes',
  sí: 'yes',
  x: 'yes',
  n: 'no',
  false: 'no',
  '0': 'no',
} as const;

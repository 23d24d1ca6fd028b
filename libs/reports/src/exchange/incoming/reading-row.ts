import { numberIn, isFault, clockIn, dateIn, timeIn, type Writing } from './cells.ts';
import type { Instant } from '@furrowmark/domain';
import type { Places } from './columns.ts';
import { instantsOf, type WallTime } from './local-time.ts';
import type { Sheet, SheetRow } from './sheet.ts';
import type { CellProblem } from './types.ts';

/** How a logger's rows are read. */
export interface LoggerReading {
  readonly reading: Writing;
  /** Minutes east of UTC of a logger whose clock never changes for summer time. */
  readonly offsetMinutes: number | undefined;
}

/** When a row was read. Of the hour that is lived twice, the one that goes on from the row before. */
export function timeOf(
  row: SheetRow,
  { header }: Sheet,
  places: Places,
  { reading, offsetMinutes }: LoggerReading,
  zone: string,
  previous: Instant | null,
  problems: CellProblem[],
): { readonly instant: Instant; readonly offsetMinutes: number | null } | null {
  const cell = (member: string): string => row.cells[places.get(member) ?? -1] ?? '';
  const fault = (detail: string): null => {
    problems.push({ column: header[places.get('time') ?? -1] ?? null, detail });
    return null;
  };
  let shown: WallTime;
  if (places.has('clock')) {
    const [date, clock] = [dateIn(cell('time'), reading), clockIn(cell('clock'))];
    if (isFault(date)) return fault(date.fault);
    if (isFault(clock)) return fault(clock.fault);
    shown = { date: date.value, ...clock.value };
  } else {
    const time = timeIn(cell('time'), reading);
    if (isFault(time)) return fault(time.fault);
    if ('instant' in time.value) return time.value;
    shown = time.value;
  }
  if (offsetMinutes !== undefined) {
    const [instant] = instantsOf(shown, 'UTC');
    return instant === undefined ? fault('is no time') : { instant: instant - offsetMinutes * 60_000, offsetMinutes };
  }
  const [first, second] = instantsOf(shown, zone);
  if (first === undefined)
    return fault('is an hour that the clocks skipped: if the logger keeps winter time, say its offset');
  const instant = second !== undefined && previous !== null && first <= previous ? second : first;
  return { instant, offsetMinutes: null };
}

/** The figure of a row; a temperature may be missing, an oxygen reading may not. */
export function figure(
  row: SheetRow,
  { header }: Sheet,
  places: Places,
  member: 'dissolvedOxygen' | 'temperature',
  { reading }: LoggerReading,
  problems: CellProblem[],
): number | null {
  const place = places.get(member);
  if (place === undefined) return null;
  const cell = row.cells[place] ?? '';
  if (cell === '' && member === 'temperature') return null;
  const value = cell === '' ? { fault: 'is empty' } : numberIn(cell, reading);
  if (!isFault(value)) return value.value;
  problems.push({ column: header[place] ?? null, detail: value.fault });
  return null;
}

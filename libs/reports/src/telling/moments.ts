import type { Instant, Moment, Span } from '@furrowmark/domain';
import { dateOn, zonedText } from '@furrowmark/domain';
import { localTime } from '../clock.ts';
import type { Cell } from '../content.ts';
import { brief } from './numbers.ts';
import type { Telling } from './telling.ts';

/** `2026-04-21 16:30`; an uncertain time as the range it lies in. */
export function momentText({ zone, words }: Telling, moment: Moment | null): string {
  if (moment === null) return words.notRecorded;
  if (moment.from === moment.to) return localTime(moment.at, zone);
  return words.range(localTime(moment.from, zone), localTime(moment.to, zone));
}

/** A cell that prints the local time and carries RFC 3339. */
export const instantCell = ({ zone }: Telling, at: Instant): Cell => ({
  text: localTime(at, zone),
  value: zonedText(at, zone),
});

export const momentCell = (telling: Telling, moment: Moment): Cell => ({
  text: momentText(telling, moment),
  value: zonedText(moment.at, telling.zone),
});

/** A cell with the local day. */
export const dayCell = ({ zone }: Telling, at: Instant): Cell => {
  const day = dateOn(at, zone);
  return { text: day, value: day };
};

/** `24.5 h`; an uncertain length as its range, `6.5–8.5 h`. */
export function spanText({ words }: Telling, span: Span | null, unit: string, places = 1): string {
  if (span === null) return words.notRecorded;
  const [value, least, most] = [span.value, span.least, span.most].map((each) => brief(each, places));
  return least === most ? `${value} ${unit}` : `${least}–${most} ${unit}`;
}

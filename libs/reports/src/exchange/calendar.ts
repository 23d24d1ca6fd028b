import { utcText, type Instant } from '@furrowmark/domain';
import type { Language } from '../words/index.ts';

/** Something to be done by a time. */
export interface Due {
  /** Stays the same while it is the same thing that is due; a calendar replaces an entry of the same id. */
  readonly id: string;
  readonly at: Instant;
  /** What it is about, as people call it: a batch's or a source's code. */
  readonly about: string;
  readonly what: string;
}

const words = {
  en: { calendar: (operation: string) => `${operation}: due`, remind: 'Due in 30 minutes' },
  es: { calendar: (operation: string) => `${operation}: por hacer`, remind: 'Vence en 30 minutos' },
} as const;

/** Text in a property (RFC 5545, section 3.3.11). Control characters other than line breaks and tabs may not stand in it. */
const escaped = (text: string): string =>
  text
    .replaceAll(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/g, '')
    .replaceAll(/[\\;,]/g, (mark) => `\\${mark}`)
    .replaceAll(/\r\n|\r|\n/g, '\\n');

const octets = (character: string): number => {
  const point = character.codePointAt(0) ?? 0;
  return point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
};

/** A content line, folded so that none is longer than 75 octets, never within a character (section 3.1). */
function folded(line: string): string {
  let out = '';
  let length = 0;
  for (const character of line) {
    const size = octets(character);
    if (length + size > 75) {
      out += '\r\n ';
      length = 1;
    }
    out += character;
    length += size;
  }
  return `${out}\r\n`;
}

/** A calendar has at least one component (section 3.6); where nothing is due, this is it. */
const empty = [
  'BEGIN:VTIMEZONE',
  'TZID:Etc/UTC',
  'BEGIN:STANDARD',
  'DTSTART:19700101T000000',
  'TZOFFSETFROM:+0000',
  'TZOFFSETTO:+0000',
  'END:STANDARD',
  'END:VTIMEZONE',
];

/** `20260603T111000Z` (section 3.3.5, form 2). */
const utc = (at: Instant): string => `${utcText(at).slice(0, 19).replaceAll(/[-:]/g, '')}Z`;

/**
 * What is due as an iCalendar (RFC 5545): an event of no length for each, with a reminder half an hour before, in UTC, so
 * that every calendar shows it at its own time. `now` stamps the file; the same things give the same ids.
 */
export function dueCalendar(
  due: readonly Due[],
  { now, operation, language }: { readonly now: Instant; readonly operation: string; readonly language: Language },
): string {
  const own = words[language];
  const events = due.flatMap(({ id, at, about, what }) => [
    'BEGIN:VEVENT',
    `UID:${escaped(id)}`,
    `DTSTAMP:${utc(now)}`,
    `DTSTART:${utc(at)}`,
    `SUMMARY:${escaped(`${about}: ${what}`)}`,
    'TRANSP:TRANSPARENT',
    'BEGIN:VALARM',
    'ACTION:DISPLAY',
    `DESCRIPTION:${escaped(own.remind)}`,
    'TRIGGER:-PT30M',
    'END:VALARM',
    'END:VEVENT',
  ]);
  return [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Furrowmark//Deadlines 1//EN',
    'CALSCALE:GREGORIAN',
    'METHOD:PUBLISH',
    `NAME:${escaped(own.calendar(operation))}`,
    ...(events.length === 0 ? empty : events),
    'END:VCALENDAR',
  ]
    .map(folded)
    .join('');
}

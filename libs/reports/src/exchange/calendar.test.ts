import { describe, expect, it } from '@jest/globals';
import ical from 'ical.js';
import fc from 'fast-check';
import { dueCalendar, type Due } from './calendar.ts';

const now = Date.parse('2026-06-03T10:00:00Z');
const told = { now, operation: 'Quillfen Growers', language: 'en' } as const;

/** The events as the reference parser reads them. */
const read = (text: string) =>
  new ical.Component(ical.parse(text)).getAllSubcomponents('vevent').map((component) => {
    const event = new ical.Event(component);
    return { uid: event.uid, summary: event.summary, at: event.startDate.toJSDate().getTime() };
  });

const due: fc.Arbitrary<Due> = fc.record({
  id: fc.uuid(),
  at: fc
    .integer({ min: Date.parse('1971-01-01'), max: Date.parse('2100-01-01') })
    .map((at) => Math.floor(at / 1000) * 1000),
  about: fc.string({ unit: 'grapheme', minLength: 1, maxLength: 40 }),
  what: fc.string({ unit: 'grapheme', maxLength: 200 }),
});
// Line breaks become one kind; other control characters may not stand in a text (RFC 5545, section 3.1).
const kept = (text: string): string => text.replaceAll(/\r\n|\r/g, '\n').replaceAll(/[^\P{Cc}\n\t]/gu, '');

describe('what is due as iCalendar', () => {
  it('is read by another parser with the same ids, times and words, whatever they are', () => {
    fc.assert(
      fc.property(fc.array(due, { maxLength: 8 }), (things) => {
        const found = read(dueCalendar(things, told));
        expect(found).toEqual(
          things.map(({ id, at, about, what }) => ({ uid: id, at, summary: kept(`${about}: ${what}`) })),
        );
      }),
    );
  });

  it('has lines of at most 75 octets that end in CRLF (RFC 5545, section 3.1)', () => {
    fc.assert(
      fc.property(fc.array(due, { maxLength: 4 }), (things) => {
        const text = dueCalendar(things, told);
        expect(text.endsWith('\r\n')).toBe(true);
        for (const line of text.split('\r\n')) {
          expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
          expect(line).not.toMatch(/[\r\n]/);
        }
      }),
    );
  });

  it('names version and product, and reminds half an hour before', () => {
    const text = dueCalendar(
      [{ id: 'a', at: now, about: 'Tank 2', what: 'read the oxygen; or the odour, at least' }],
      told,
    );
    const calendar = new ical.Component(ical.parse(text));
    expect(calendar.getFirstPropertyValue('version')).toBe('2.0');
    expect(calendar.getFirstPropertyValue('prodid')).toMatch(/Furrowmark/);
    const alarm = calendar.getFirstSubcomponent('vevent')?.getFirstSubcomponent('valarm');
    expect(String(alarm?.getFirstPropertyValue('trigger'))).toBe('-PT30M');
    expect(read(text)).toEqual([{ uid: 'a', at: now, summary: 'Tank 2: read the oxygen; or the odour, at least' }]);
  });

  it('with nothing due has still a component, as every calendar must (RFC 5545, section 3.6)', () => {
    const text = dueCalendar([], told);
    expect(read(text)).toEqual([]);
    expect(new ical.Component(ical.parse(text)).getAllSubcomponents()).toHaveLength(1);
  });
});

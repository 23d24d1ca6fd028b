import type { Language } from './message.ts';

const months: Readonly<Record<Language, readonly string[]>> = {
  en: 'January February March April May June July August September October November December'.split(' '),
  es: 'enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre'.split(' '),
};
const dayName: Readonly<Record<Language, string>> = { en: 'days', es: 'días' };

/** A date as `3 June 2026`, `3 de junio de 2026`. */
export function dayIn(date: string, language: Language): string {
  const [day, month, year] = [Number(date.slice(8, 10)), Number(date.slice(5, 7)), date.slice(0, 4)];
  const name = months[language][month - 1] ?? '';
  return language === 'es' ? `${day} de ${name} de ${year}` : `${day} ${name} ${year}`;
}

/** A local time, `2026-06-03T14:35`, as `14:35 on 3 June 2026`, `14:35 del 3 de junio de 2026`. */
export function timeIn(time: string, language: Language): string {
  return `${time.slice(11)} ${language === 'es' ? 'del' : 'on'} ${dayIn(time.slice(0, 10), language)}`;
}

/** `9 h 12 min`, `30 days` from a week on; whole minutes, so that a hair above a limit reads `8 h` and is called "just over". */
export function hoursIn(hours: number, language: Language): string {
  const minutes = Math.round(hours * 60);
  // Nobody counts weeks in hours; brews, at most 72 h, stay in hours.
  if (minutes >= 7 * 1440) return `${Math.floor(minutes / 1440)} ${dayName[language]}`;
  const [h, min] = [Math.floor(minutes / 60), minutes % 60];
  return h === 0 ? `${min} min` : min === 0 ? `${h} h` : `${h} h ${min} min`;
}

/** Minutes, whole ones or a half: a phone knows the second, and nobody reads `13.17 min`. Near a limit it is called "just under". */
export const minutesIn = (minutes: number): string =>
  Number.isInteger(minutes * 2) ? figureIn(minutes) : String(Math.round(minutes));

/** `14 days`. */
export const daysIn = (days: number, language: Language): string => `${figureIn(days)} ${dayName[language]}`;

/** A number to four significant digits, without trailing zeros. The point is North American, in Spanish as well. */
export const figureIn = (value: number): string => String(Number(value.toPrecision(4)));

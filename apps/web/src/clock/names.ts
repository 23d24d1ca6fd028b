import type { Language } from '../words/catalogue.ts';

// As the Unicode CLDR has them, abbreviated. The browser's own would do as well, but the first use of its formats takes a
// phone 60 ms in one piece, in the middle of opening the app.

/** Days of the week, from Sunday. */
export const weekdays: Readonly<Record<Language, readonly string[]>> = {
  en: ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'],
  es: ['dom', 'lun', 'mar', 'mié', 'jue', 'vie', 'sáb'],
};

/** Months, from January. */
export const months: Readonly<Record<Language, readonly string[]>> = {
  en: ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'],
  es: ['ene', 'feb', 'mar', 'abr', 'may', 'jun', 'jul', 'ago', 'sept', 'oct', 'nov', 'dic'],
};

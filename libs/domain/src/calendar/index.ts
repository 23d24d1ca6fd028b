export { addDays, addMonths, dateOn, daysBetween, endOfDay, isDate, startOfDay, type DateText } from './date.ts';
export { instantOf, parseInstant, utcText } from './instant.ts';
export { localText, timeOn } from './text.ts';
export { isZone } from './zone.ts';

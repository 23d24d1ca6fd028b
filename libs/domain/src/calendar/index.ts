export { addDays, addMonths, dateOn, daysBetween, endOfDay, isDate, startOfDay, type DateText } from './date.ts';
export { instantOf, offsetMinutesOf, parseInstant, textWithOffset, utcText } from './instant.ts';
export { localText, timeOn, zonedText } from './text.ts';
export { isZone, spanAt, type OffsetSpan } from './zone.ts';

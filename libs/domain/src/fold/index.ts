export { openingSeason, openSeason, type OpenSeason } from './season.ts';
export { drawSubjectId } from './applications.ts';
export { hoursOver, uncheckedLimitMinutes } from './draws.ts';
export { seasonAt, type AsOf } from './seasonAt.ts';

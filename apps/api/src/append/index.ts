export { Appender } from './appender.ts';
export { prepare } from './prepare.ts';
export type { Appended, RecordResult, Refusal } from './outcome.ts';

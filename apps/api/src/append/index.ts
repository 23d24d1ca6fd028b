export { Appender } from './appender.ts';
export { Recording, type Entering } from './recording.ts';
export { prepareOwn, type OwnRecord } from './own-records.ts';
export { mostRecordBytes, prepare } from './prepare.ts';
export type { Appended, RecordResult, Refusal } from './outcome.ts';
export { writeEntries } from './write.ts';
export type { NewEntry } from './decide.ts';

export * from './ids.ts';
export type * from './record.ts';
export { isRecordType, rankOf, recordTypes, typeEntry } from './catalogue.ts';
export type { DataOf, RecordType, TypeEntry } from './catalogue.ts';

export { BatchList } from './batch-list.ts';
export { RecordList } from './record-list.ts';
export { Seasons, type Held, type Reading } from './seasons.ts';
export { outcomeJson } from './json.ts';
export { Views } from './views.ts';
export { seenFrom, type Viewpoint } from './as-of.ts';
export { readRecords } from './read-records.ts';
export { writeBatches } from './write-following.ts';
export { Settler } from './settler.ts';

export { RecordList } from './record-list.ts';
export { Seasons, type Held, type Reading } from './seasons.ts';

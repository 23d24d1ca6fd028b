export { SeasonClock } from './clock.ts';
export { AccessFile, writeFiles } from './files.ts';
export { allFindings, findingsText } from './findings.ts';
export { recordSeason } from './record.ts';
export { seasonYear, writeSeason } from './season/index.ts';
export { tell } from './story.ts';

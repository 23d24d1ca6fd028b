/** Checks an exported log offline. Imports the log library and nothing else of the project. */
export { openDirectory, openTar } from './archive.ts';
export type { Archive } from './archive.ts';
export { run } from './run.ts';
export { verifyArchive, verifyBare } from './verify.ts';
export type { ArchiveReport, Trust } from './verify.ts';
export { exitCodeOf, exitCodes, reportLines } from './words.ts';

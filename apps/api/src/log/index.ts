export { LogKey, originOf } from './log-key.ts';
export { createHead, frontierOf, headNow, int8, lockHead, readHead, type Head } from './head.ts';
export { LogReader, type LogState } from './log-reader.ts';
export { hashesOf } from './nodes.ts';
export { seal, unsealed, type Opening } from './seal.ts';
export { keepCheckpoint, keptCheckpoints, keyEntries, type KeptCheckpoint } from './checkpoints.ts';
export { checkpointIn, Signing } from './signing.ts';

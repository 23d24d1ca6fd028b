export { Archives, type Archived } from './archive.ts';
export { KeyChange, knownOf, type KeyChanged, type Known } from './key-change.ts';
export { Post, postBySmtp, type Letter } from './mail.ts';
export { Schedule } from './schedule.ts';
export { Witnesses, type Witness } from './witnesses.ts';
export { Imports, type Imported } from './imports.ts';
export { Rebuild, type Rebuilt } from './rebuild.ts';

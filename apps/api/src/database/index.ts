export { ownerDataSource } from './data-source.ts';
export { openDatabase, type DatabaseOptions, type OpenDatabase } from './open.ts';
export { OperationScope } from './scope.ts';
export { migrated, NewerSchema } from './schema.ts';
export { assertLeastRights } from './least-rights.ts';
export { privateFile } from './private-file.ts';
export { isConnectionLost } from './connection-lost.ts';
export { AlreadyServed, liveHolder } from './holder.ts';
export { prepared } from './prepared.ts';

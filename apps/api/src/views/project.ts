import type { LogRecord, Season } from '@furrowmark/domain';
import type { EntityManager } from 'typeorm';

export async function project(
  _manager: EntityManager,
  _operationId: string,
  _season: Season,
  _records: readonly LogRecord[],
  _batches: ReadonlySet<string>,
): Promise<void> {}

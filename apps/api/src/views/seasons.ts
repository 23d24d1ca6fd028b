import { Injectable } from '@nestjs/common';
import type { LogRecord } from '@furrowmark/domain';
import type { EntityManager } from 'typeorm';

/** An operation's season, held for one append: nobody else reads it until it is released. */
export interface Held {
  /** Brings the season up to `size`, adds the new records, writes what follows from them. */
  project(manager: EntityManager, size: number, records: readonly LogRecord[]): Promise<void>;
  release(how: 'keep' | 'drop'): void;
}

@Injectable()
export class Seasons {
  hold(_operationId: string): Promise<Held> {
    return Promise.resolve({ project: () => Promise.resolve(), release: () => undefined });
  }
}

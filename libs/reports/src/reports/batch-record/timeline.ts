import type { CurrentRecord } from '@furrowmark/domain';
import type { Block } from '../../content.ts';
import type { Telling } from '../../telling/index.ts';
import { recordTable } from '../record-table.ts';
import { batchWords } from './words.ts';

/** Every record as it stands, the originals of amended ones beside them, withdrawn ones struck through. */
export function timeline(telling: Telling, records: readonly CurrentRecord[], known: ReadonlySet<string>): Block[] {
  const own = batchWords[telling.language];
  return [
    { kind: 'heading', level: 2, text: own.timeline },
    { kind: 'paragraph', text: own.timelineNote },
    recordTable(telling, 'timeline', records, { known }),
  ];
}

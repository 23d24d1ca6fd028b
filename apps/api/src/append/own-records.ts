import { recordId, typeEntry, type DataOf, type Draft } from '@furrowmark/domain';
import { v7 as uuidv7 } from 'uuid';
import { clientText } from './content.ts';
import type { Prepared } from './prepare.ts';

/** A record that only the service writes: about access, and about the log's key. */
export type OwnRecord =
  | { readonly type: 'access.granted'; readonly data: DataOf<'access.granted'> }
  | { readonly type: 'access.withdrawn'; readonly data: DataOf<'access.withdrawn'> }
  | { readonly type: 'access.used'; readonly data: DataOf<'access.used'> }
  | { readonly type: 'key.replaced'; readonly data: DataOf<'key.replaced'> }
  | { readonly type: 'log.restored'; readonly data: DataOf<'log.restored'> }
  | { readonly type: 'import.made'; readonly data: DataOf<'import.made'> };

/** The service's own record, ready to be appended; `id` where the same must not be written twice. */
export function prepareOwn(record: OwnRecord, now: number, id: string = uuidv7()): Prepared {
  const data = Object.fromEntries(Object.entries(record.data).filter(([, value]) => value !== undefined));
  typeEntry(record.type)?.schema().parse(data);
  const envelope = { id: recordId.parse(id), version: 1, occurredAt: new Date(now).toISOString() };
  const draft: Draft = { ...envelope, ...record };
  const members = { ...draft, data };
  return { status: 'prepared', id, draft, content: clientText(members), members, openings: [], ownOnly: null };
}

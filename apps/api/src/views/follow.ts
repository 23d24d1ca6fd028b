import {
  batchesNamed,
  batchView,
  edgesOf,
  utcText,
  type Batch,
  type LogRecord,
  type Season,
  type TraceEdge,
} from '@furrowmark/domain';

/** Batches whose facts are written with the records that changed them; of further ones it is noted that they are stale. */
const mostAtOnce = 8;

/** What is kept of one batch. */
export interface KeptBatch {
  readonly batchId: string;
  readonly code: string;
  readonly kind: string;
  readonly phase: string;
  /** From the first to the last thing that happened with it, RFC 3339; null where everything was struck. */
  readonly from: string | null;
  readonly to: string | null;
  /** JSON. */
  readonly facts: string;
  readonly edges: readonly TraceEdge[];
}

/** What follows from new records. */
export interface Following {
  readonly batches: readonly KeptBatch[];
  /** Batches of which what is kept no longer holds, or is not known to. */
  readonly stale: readonly string[];
  /** The operation's name and zone, where the records may have changed them. */
  readonly operation: { readonly name: string; readonly timeZone: string } | null;
}

/**
 * Whether what follows from these records is written a moment after them: where they name many batches, the season is not
 * looked at in their transaction. What changes the operation's own name, or takes a person's away, is followed at once.
 */
export function followedLater(records: readonly LogRecord[]): boolean {
  return namedIn(records).size > mostAtOnce && !records.some(({ type }) => describes(type) || type === 'person.erased');
}

/**
 * What follows from new records: the facts and edges of batches they name, the few that a phone delivers; the rest of the
 * batches that may have changed (`changed`, named ones included) is settled after the commit.
 */
export function follow(season: Season, records: readonly LogRecord[], changed: ReadonlySet<string>): Following {
  const named = namedIn(records);
  const now = named.size > mostAtOnce ? [] : [...named].filter((id) => changed.has(id));
  return {
    batches: now.flatMap((id) => keptOf(season, id)),
    stale: [...changed].filter((id) => !now.includes(id)),
    operation: records.some(({ type }) => describes(type)) ? { name: nameOf(season), timeZone: season.timeZone } : null,
  };
}

const namedIn = (records: readonly LogRecord[]): Set<string> =>
  new Set(records.flatMap((record) => batchesNamed(record)));

/** Whether a record of this type may change the operation's name or zone. */
const describes = (type: string): boolean => type.startsWith('operation.') || type.startsWith('record.');

/** What is kept of a batch; nothing where no record speaks of it any more. */
export function keptOf(season: Season, batchId: string): KeptBatch[] {
  const batch = season.batch(batchId);
  if (batch === undefined) return [];
  const { id, code, kind, phase } = batch;
  const facts = JSON.stringify(batchView(batch));
  return [{ batchId: id, code, kind, phase, ...boundsOf(batch), facts, edges: edgesOf(season, id) }];
}

function boundsOf(batch: Batch): { from: string | null; to: string | null } {
  let [first, last] = [Infinity, -Infinity];
  for (const { state, at } of batch.records) {
    if (state === 'struck') continue;
    first = Math.min(first, at.at);
    last = Math.max(last, at.at);
  }
  return first === Infinity ? { from: null, to: null } : { from: utcText(first), to: utcText(last) };
}

function nameOf({ operation }: Season): string {
  const name = operation?.revisions.findLast(({ changes }) => changes.name !== undefined)?.changes.name;
  return name ?? operation?.registered.name ?? '';
}

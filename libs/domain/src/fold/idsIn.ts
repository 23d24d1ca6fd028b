import { mentions } from '../records/mentions.ts';
import type { CurrentRecord } from '../records/record.ts';

/**
 * The ids under which a current record is found. A correction is found under the record it corrects only: what its
 * corrected data names is named by that record, once corrected.
 */
export function idsIn(record: CurrentRecord): readonly string[] {
  return isCorrection(record) ? [record.data.recordId] : mentions(record);
}

function isCorrection(
  record: CurrentRecord,
): record is CurrentRecord<'record.amended'> | CurrentRecord<'record.struck'> {
  return record.type === 'record.amended' || record.type === 'record.struck';
}

/** Ids that an earlier text of the record named and the current one does not. */
export function idsOnceIn(record: CurrentRecord): readonly string[] {
  if (record.history.length === 0 || isCorrection(record)) return [];
  const now = new Set(idsIn(record));
  const before = record.history.flatMap((step) => (step.data === undefined ? [] : mentions({ data: step.data })));
  return [...new Set(before)].filter((id) => !now.has(id));
}

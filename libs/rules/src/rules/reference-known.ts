import { instantOf } from '@furrowmark/domain';
import { z } from 'zod';
import { due, met, unknown } from '../engine/judgement.ts';
import { hours } from '../engine/parameter.ts';
import { checkRecords, groundRecords, tankRecords, testRecords, waterRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { hourMs } from '../judging/span.ts';
import { messages, say, type MessageKey, type Said } from '../words/index.ts';

const isKey = (key: string): key is Extract<MessageKey, `missing.${string}`> => Object.hasOwn(messages, key);

/** What is named, in words. */
function missingWords(kind: string): Said | string {
  const key = `missing.${kind}`;
  return isKey(key) ? say(key) : kind;
}

/** Things that a batch's records name and that no record describes. */
export const referenceKnown = defineRule({
  id: 'reference-known',
  revision: 1,
  title: 'Everything named is on record',
  reason:
    'Telephones deliver late and out of order, so a record may speak of a lot or a tank before it is known. If it stays so for a day, something was forgotten or typed wrongly.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'notice',
  packs: ['practice'],
  parameters: () => z.object({ waitHours: hours(24, 'Hours that a record may wait for what it names.') }),
  brokenWord: { en: 'not on record', es: 'sin registro' },
  chosenAt: 'the record that names it',
  looksAt: {
    kinds: ['batch', 'lot', 'vessel', 'source', 'instrument', 'equipment', 'field', 'planting', 'person'],
    records: [
      ...tankRecords,
      ...checkRecords,
      ...waterRecords,
      ...groundRecords,
      ...testRecords,
      'batch.chlorineMeasured',
      'equipment.registered',
      'person.registered',
      'source.delivered',
      'document.attached',
      'batch.reviewed',
      'finding.answered',
      'certifier.notified',
    ],
  },
  judge: {
    batch(batch, { limits, season, now }) {
      const waiting = batch.missing.flatMap(({ kind, id, recordId }) => {
        const record = season.record(recordId);
        return record === undefined ? [] : [{ kind, id, record, since: instantOf(record.recordedAt) }];
      });
      const first = waiting.reduce<(typeof waiting)[number] | null>(
        (a, b) => (a === null || b.since < a.since ? b : a),
        null,
      );
      const book = limits(first?.record.at.at ?? batch.records[0]?.at.at ?? now);
      if (first === null) return met(book, say('reference-known.all'));
      const by = first.since + book.parameters.waitHours * hourMs;
      const what = [...new Set(waiting.map(({ kind }) => kind))].map(missingWords);
      const evidence = {
        figures: [{ name: 'missing', value: waiting.length, limit: 0 }],
        recordIds: [...new Set(waiting.map(({ record }) => record.id))],
      };
      return now <= by
        ? due(book, by, say('due.recordMissing'), say('reference-known.waiting', { what }), evidence)
        : unknown(book, say('reference-known.missing', { what }), {
            ...evidence,
            since: by,
          });
    },
  },
});

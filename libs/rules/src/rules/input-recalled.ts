import { z } from 'zod';
import { broken, caution, notApplicable } from '../engine/judgement.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { usesOf, useWithin } from '../judging/lot-uses.ts';
import { timeOf } from '../judging/when.ts';
import { say } from '../words/index.ts';

/** A recall re-opens every use, earlier ones too. */
export const inputRecalled = defineRule({
  id: 'input-recalled',
  revision: 1,
  title: 'No recalled lot in the tea',
  reason:
    'A recall says that the lot was never what it should have been, so it counts for what was brewed before it became known as well. Follow the lot to its batches, fields and harvests before anything else leaves.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'critical',
  packs: ['practice'],
  parameters: () => z.object({}),
  brokenWord: { en: 'recalled', es: 'retirado' },
  chosenAt: 'the recall',
  looksAt: {
    kinds: ['lot', 'batch', 'application'],
    records: [...tankRecords, 'lot.recalled'],
  },
  judge: {
    lot(lot, { limits, season, now }) {
      const recall = lot.recalls[0];
      if (recall === undefined) return notApplicable(limits(now), say('input-recalled.none'));
      const book = limits(recall.at.at);
      const uses = usesOf(lot);
      const said = say('input-recalled.said', {
        code: lot.code,
        at: timeOf(season, recall.at.at),
        reason: recall.data.reason,
      });
      const recordIds = [...lot.recalls.map(({ id }) => id), ...uses.map((use) => use.recordId)];
      if (uses.length === 0) return caution(book, say('input-recalled.unused', { said }), { recordIds });
      const shown = uses.slice(0, 5).map((use) => useWithin(season, use));
      const more = uses.length > shown.length ? say('input-recalled.andMore', { n: uses.length - shown.length }) : null;
      return broken(book, say('input-recalled.used', { said, shown, more }), {
        figures: [{ name: 'uses', value: uses.length }],
        recordIds,
        since: recall.at.at,
      });
    },
  },
});

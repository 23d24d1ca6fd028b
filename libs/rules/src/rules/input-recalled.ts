import { z } from 'zod';
import { broken, caution, notApplicable } from '../engine/judgement.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { usesOf, useWords } from '../judging/lot-uses.ts';
import { timeWords } from '../judging/when.ts';

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
  parameters: z.object({}),
  brokenWord: { en: 'recalled', es: 'retirado' },
  chosenAt: 'the recall',
  looksAt: {
    kinds: ['lot', 'batch', 'application'],
    records: [...tankRecords, 'lot.recalled'],
  },
  judge: {
    lot(lot, { limits, season, now }) {
      const recall = lot.recalls[0];
      if (recall === undefined) return notApplicable(limits(now), 'The lot was not recalled.');
      const book = limits(recall.at.at);
      const uses = usesOf(lot);
      const said = `Lot ${lot.code} was recalled at ${timeWords(season, recall.at.at)} (${recall.data.reason})`;
      const recordIds = [...lot.recalls.map(({ id }) => id), ...uses.map((use) => use.recordId)];
      if (uses.length === 0) return caution(book, `${said}; it is not used in tea: keep it out.`, { recordIds });
      const shown = uses.slice(0, 5).map((use) => useWords(season, use).replace(/^Used/, 'used'));
      const more = uses.length > shown.length ? ` and ${uses.length - shown.length} more` : '';
      return broken(
        book,
        `${said}; it was ${shown.join(', ')}${more}. Follow it to its batches, fields and harvests.`,
        {
          figures: [{ name: 'uses', value: uses.length }],
          recordIds,
          since: recall.at.at,
        },
      );
    },
  },
});

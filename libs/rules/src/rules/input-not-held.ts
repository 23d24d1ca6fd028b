import { z } from 'zod';
import { broken, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { usesBeside, useWords } from '../judging/lot-uses.ts';
import { timeOf } from '../judging/when.ts';
import { say } from '../words/index.ts';

/** No use while a lot stands held. */
export const inputNotHeld = defineRule({
  id: 'input-not-held',
  revision: 2,
  title: 'Not used while held',
  reason:
    'A lot is put on hold because something about it is open: a broken seal, a missing paper, a doubt. Until somebody releases it, it stays on the shelf.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'major',
  packs: ['practice'],
  parameters: () => z.object({}),
  brokenWord: { en: 'on hold', es: 'retenido' },
  perBatch: ['lot'],
  chosenAt: 'the addition',
  looksAt: {
    kinds: ['lot', 'batch', 'application'],
    records: [...tankRecords, 'lot.held', 'lot.released'],
  },
  judge: {
    lot(lot, { limits, season, now, beside }) {
      const uses = usesBeside(season, lot, beside);
      if (lot.holds.length === 0) return notApplicable(limits(uses[0]?.at.at ?? now), say('input-not-held.never'));
      const judgements = uses.map((use): Judgement => {
        const book = limits(use.at.at);
        const standing = lot.holds.findLast((each) => each.at.at <= use.at.at);
        const unsure = lot.holds.some(
          (each) =>
            each.at.from <= use.at.to &&
            each.at.to >= use.at.from &&
            !(each.at.at === use.at.at && each.at.from === each.at.to),
        );
        const recordIds = [use.recordId, ...(standing === undefined ? [] : [standing.id])];
        if (unsure)
          return unknown(book, say('input-not-held.unsure', { used: useWords(season, use), code: lot.code }), {
            recordIds,
          });
        return standing?.type === 'lot.held'
          ? broken(
              book,
              say('input-not-held.held', {
                used: useWords(season, use),
                code: lot.code,
                since: timeOf(season, standing.at.at),
                reason: standing.data.reason,
              }),
              { recordIds },
            )
          : met(book, say('input-not-held.free', { used: useWords(season, use), code: lot.code }), { recordIds });
      });
      return (
        worst(judgements, (n) => say('common.moreUses', { n })) ??
        notApplicable(limits(now), say('input-not-held.unused'))
      );
    },
  },
});

import { endOfDay } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { daysOf, usesBeside, useWords } from '../judging/lot-uses.ts';
import { stockLeft } from '../judging/stock-left.ts';
import { say, type Said } from '../words/index.ts';

/** Each lot against the date on it; the date itself still counts. */
export const inputInDate = defineRule({
  id: 'input-in-date',
  revision: 2,
  title: 'Input within its date',
  reason:
    'Past its date a biological or a feed may no longer be what the label says. The supplier stands behind it only up to that day.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'minor',
  packs: ['practice'],
  parameters: () => z.object({}),
  brokenWord: { en: 'expired', es: 'caducado' },
  owes: {
    lot(lot, { season, now }) {
      if (lot.expiresOn === undefined || !stockLeft(lot)) return null;
      const end = endOfDay(lot.expiresOn, season.timeZone);
      return now < end ? { at: end, what: say('due.useUpLot') } : null;
    },
  },
  perBatch: ['lot'],
  chosenAt: 'the addition',
  looksAt: {
    kinds: ['lot', 'batch', 'application'],
    records: [...tankRecords],
  },
  judge: {
    lot(lot, { limits, season, now, beside }) {
      const expires = lot.expiresOn;
      const uses = usesBeside(season, lot, beside);
      if (expires === undefined) return notApplicable(limits(uses[0]?.at.at ?? now), say('input-in-date.noDate'));
      const judgements = uses.map((use): Judgement => {
        const book = limits(use.at.at);
        const days = daysOf(season, use.at);
        const late = days.filter((day) => day > expires);
        const evidence = {
          recordIds: [use.recordId],
          figures: [
            { name: 'expiresOn', value: expires },
            { name: 'usedOn', value: days[0] ?? '' },
          ],
        };
        const said = (): Said => say('input-in-date.said', { used: useWords(season, use), code: lot.code, expires });
        if (late.length === 0) return met(book, said, evidence);
        return late.length === days.length
          ? broken(book, said, evidence)
          : unknown(book, () => say('input-in-date.dayUnsure', { said: said() }), evidence);
      });
      return (
        worst(judgements, (n) => say('common.moreUses', { n })) ?? notApplicable(limits(now), say('common.unusedYet'))
      );
    },
  },
});

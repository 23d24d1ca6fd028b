import { z } from 'zod';
import { broken, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { daysOf, usesOf, useWords } from '../judging/lot-uses.ts';
import { dayWords } from '../judging/when.ts';

/** Each lot against the date on it; the date itself still counts. */
export const inputInDate = defineRule({
  id: 'input-in-date',
  revision: 1,
  title: 'Input within its date',
  reason:
    'Past its date a biological or a feed may no longer be what the label says. The supplier stands behind it only up to that day.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'minor',
  packs: ['practice'],
  parameters: z.object({}),
  brokenWord: { en: 'expired', es: 'caducado' },
  chosenAt: 'the addition',
  looksAt: {
    kinds: ['lot', 'batch', 'application'],
    records: [...tankRecords],
  },
  judge: {
    lot(lot, { limits, season, now }) {
      const expires = lot.expiresOn;
      const uses = usesOf(lot);
      if (expires === undefined) return notApplicable(limits(uses[0]?.at.at ?? now), 'The lot carries no date.');
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
        const said = (): string => `${useWords(season, use)}; the date on lot ${lot.code} is ${dayWords(expires)}.`;
        if (late.length === 0) return met(book, said, evidence);
        return late.length === days.length
          ? broken(book, said, evidence)
          : unknown(book, () => `${said()} The day of use is not sure.`, evidence);
      });
      return (
        worst(judgements, (n) => `${n} more ${n === 1 ? 'use is' : 'uses are'} like it.`) ??
        notApplicable(limits(now), 'Not used in tea yet.')
      );
    },
  },
});

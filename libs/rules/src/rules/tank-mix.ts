import { z } from 'zod';
import { broken, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { lotRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { materialAt } from '../judging/lot-uses.ts';
import { say } from '../words/index.ts';

/** What went into the sprayer beside the tea. */
export const tankMix = defineRule({
  id: 'tank-mix',
  revision: 1,
  title: 'Nothing in the sprayer that harms the tea',
  reason:
    'Copper, sulfur, soaps and sanitizers kill what the tea is sprayed for. Mixed in the same tank they waste both.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'notice',
  packs: ['practice'],
  parameters: () => z.object({}),
  brokenWord: { en: 'harms the tea', es: 'daña el té' },
  chosenAt: 'the start of the application',
  looksAt: {
    kinds: ['application', 'lot', 'material'],
    records: [...lotRecords, 'application.made'],
  },
  judge: {
    application(application, { limits, season }) {
      const book = limits(application.started.at);
      const recordIds = [application.record.id];
      const judgements = (application.record.data.tankMix ?? []).map(({ lotId }): Judgement => {
        const lot = season.lot(lotId);
        const material = lot === undefined ? null : materialAt(season, lot, application.started.at);
        if (material === null) return unknown(book, say('tank-mix.unknown'), { recordIds });
        const { name, kind, harmsTea } = material;
        if (harmsTea === 'yes' || (harmsTea === undefined && kind === 'sanitizer'))
          return broken(book, say('tank-mix.harms', { name }), { recordIds });
        return harmsTea === 'no'
          ? met(book, say('tank-mix.harmless', { name }), { recordIds })
          : notApplicable(book, say('tank-mix.notRegistered', { name }));
      });
      return worst(judgements) ?? notApplicable(book, say('tank-mix.nothing'));
    },
  },
});

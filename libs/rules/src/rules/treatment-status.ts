import { z } from 'zod';
import { caution, met, notApplicable, unknown, type Judgement } from '../engine/judgement.ts';
import type { AnyLimits } from '../engine/limits.ts';
import { paperRecords, pileRecords, tankRecords, waterRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { treatmentOf, type Treatment } from '../judging/treatment.ts';
import { say } from '../words/index.ts';

/** The status in words, with what follows from it. */
function judged(book: AnyLimits, { state, because, recordIds }: Treatment): Judgement {
  const evidence = { figures: [{ name: 'treatmentStatus', value: state }], recordIds };
  switch (state) {
    case 'noAnimalOrigin':
      return met(book, say('treatment-status.noAnimal'), evidence);
    case 'treated':
      return met(book, say('treatment-status.treated'), evidence);
    case 'untreated':
      return caution(book, say('treatment-status.untreated', { because }), evidence);
    case 'unknown':
      return unknown(book, say('treatment-status.open', { because }), evidence);
  }
}

/** Treated or untreated tea, of the tank and of each load with its tank mix. */
export const treatmentStatus = defineRule({
  id: 'treatment-status',
  revision: 2,
  title: 'Treated or untreated tea',
  reason:
    'What may be done with a tea depends on what went into it. With animal materials, treated ones only, clean water, and no added nutrient make it a treated tea; an additive makes it an untreated one whatever a laboratory finds.',
  basis: 'regulation',
  citation: "21 CFR 112.51 and 112.3, in a state's adoption, read 2026-11-25",
  severity: 'major',
  packs: ['us-produce-safety'],
  parameters: () => z.object({}),
  chosenAt: 'brew start; for a load, the start of its application',
  looksAt: {
    kinds: ['batch', 'application', 'lot', 'pile', 'material', 'source'],
    records: [...tankRecords, ...waterRecords, ...pileRecords, ...paperRecords],
  },
  judge: {
    batch(batch, given) {
      const book = given.limits(batch.brewStart?.at ?? given.now);
      if (batch.brewStart === null && batch.receivedTea === null)
        return notApplicable(book, say('treatment-status.nothing'));
      return judged(book, treatmentOf(given, batch));
    },
    application(application, given) {
      // Without a tank mix the load is what the tank was.
      if ((application.record.data.tankMix ?? []).length === 0) return null;
      const batch = application.loads
        .map(({ batchId }) => given.season.batch(batchId ?? ''))
        .find((each) => each !== undefined);
      return batch === undefined
        ? null
        : judged(given.limits(application.started.at), treatmentOf(given, batch, application));
    },
  },
});

import type { Application, Planting } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, caution, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import type { AnyLimits } from '../engine/limits.ts';
import { groundRecords, paperRecords, pileRecords, tankRecords, waterRecords } from '../engine/looks-at.ts';
import { defineRule, type Bench } from '../engine/rule.ts';
import { treatmentOf, type Treatment } from '../judging/treatment.ts';
import { say } from '../words/index.ts';

type Made = Application['record']['data'];

/** Foods that are not covered produce here: grain, and what is not eaten raw or not eaten. */
function outsideTheRule({ started: { data } }: Planting): boolean {
  return (
    data.ediblePart === 'grain' ||
    data.ediblePart === 'notForFood' ||
    /rarely|process|not ?covered|exempt/i.test(data.produceRule ?? '')
  );
}

/** How an application meets what is eaten: `contact`, may `splash` it, or does not reach it. null = not told. */
function meets(made: Made, planting: Planting | null): 'contact' | 'splash' | 'none' | null {
  const part = planting?.started.data.ediblePart ?? null;
  const present = made.edibleParts ?? null;
  if (part === 'seedForSprouts') return 'contact';
  if (made.method === 'compostWetting') return 'none';
  if (present === 'absent') return 'none';
  if (made.method === 'seedSoak' || made.method === 'rootDip')
    return part === 'root' && present === 'present' ? 'contact' : 'none';
  if (made.method === 'foliar') {
    if (present === null) return planting === null ? null : part === 'root' ? 'splash' : null;
    return part === 'root' ? 'splash' : 'contact';
  }
  // On or into the soil.
  if (part === 'root') return present === 'present' ? 'contact' : null;
  if (part === 'fruitAbove' || part === 'tree') return 'none';
  return present === null && planting === null ? 'none' : 'splash';
}

function judgeMeeting(
  book: AnyLimits,
  treatment: Treatment,
  made: Made,
  planting: Planting | null,
  recordIds: readonly string[],
): Judgement {
  const crop = planting?.started.data.crop ?? say('contact-allowed.theCrop');
  const evidence = {
    figures: [
      { name: 'treatmentStatus', value: treatment.state },
      { name: 'edibleParts', value: made.edibleParts ?? null },
    ],
    recordIds,
  };
  if (planting !== null && outsideTheRule(planting))
    return notApplicable(book, say('contact-allowed.outside', { crop }));
  const meeting = meets(made, planting);
  const sprouts = planting?.started.data.ediblePart === 'seedForSprouts';
  if (meeting === 'none') return met(book, say('contact-allowed.untouched', { crop }), evidence);
  const because =
    treatment.because.length === 0 ? null : say('contact-allowed.because', { because: treatment.because });
  switch (treatment.state) {
    case 'noAnimalOrigin':
      return met(book, say('contact-allowed.noAnimal'), evidence);
    case 'untreated':
      if (meeting === 'contact') {
        return broken(
          book,
          say('contact-allowed.touched', { because, crop, sprouts: sprouts ? say('contact-allowed.sprouts') : null }),
          evidence,
        );
      }
      if (meeting === 'splash') return caution(book, say('contact-allowed.splash', { because, crop }), evidence);
      return unknown(book, say('contact-allowed.presenceUnknown', { because, crop }), evidence);
    case 'treated':
      return meeting === 'contact'
        ? caution(book, say('contact-allowed.treatedContact', { crop }), evidence)
        : met(book, say('contact-allowed.treated', { crop }), evidence);
    case 'unknown':
      return meeting === 'splash'
        ? caution(book, say('contact-allowed.openSplash', { because, crop }), evidence)
        : unknown(
            book,
            say('contact-allowed.open', {
              because,
              meeting: meeting === 'contact' ? say('contact-allowed.didTouch') : say('contact-allowed.mayTouch'),
              crop,
            }),
            evidence,
          );
  }
}

/** Status × method × edible part × presence, for each planting that was treated. */
export const contactAllowed = defineRule({
  id: 'contact-allowed',
  revision: 2,
  title: 'Contact with what is eaten',
  reason:
    'Tea of untreated animal materials must not touch produce while it is applied, and contact afterwards is kept low. So the method, the part that is eaten and whether it was there decide together.',
  basis: 'regulation',
  citation: '21 CFR 112.56(a), read 2026-11-25',
  severity: 'critical',
  packs: ['us-produce-safety'],
  parameters: () => z.object({}),
  chosenAt: 'the start of the application',
  looksAt: {
    kinds: ['application', 'batch', 'planting', 'field', 'lot', 'pile', 'material', 'source'],
    records: [...tankRecords, ...waterRecords, ...pileRecords, ...paperRecords, ...groundRecords],
  },
  judge: {
    application(application, given) {
      const book = given.limits(application.started.at);
      const made = application.record.data;
      if (made.method === 'compostWetting') return notApplicable(book, say('contact-allowed.wetted'));
      const treatment = worstTreatment(given, application);
      if (treatment === null)
        return unknown(book, say('contact-allowed.batchUnknown'), { recordIds: [application.record.id] });
      const recordIds = [application.record.id, ...treatment.recordIds];
      const plantings = application.targets.flatMap(({ plantingIds }) =>
        plantingIds.map((id) => given.season.planting(id)),
      );
      const known = plantings.filter((planting) => planting !== undefined);
      return worst(
        (known.length === 0 ? [null] : known).map((planting) =>
          judgeMeeting(book, treatment, made, planting, recordIds),
        ),
        () => say('contact-allowed.more'),
      );
    },
  },
});

const badness = { untreated: 3, unknown: 2, treated: 1, noAnimalOrigin: 0 } as const;

/** Of several batches in one sprayer the worst counts: what is mixed is no better than its worst part. */
export function worstTreatment(bench: Bench, application: Application): Treatment | null {
  let worstOne: Treatment | null = null;
  for (const { batchId } of application.loads) {
    const batch = batchId === null ? undefined : bench.season.batch(batchId);
    if (batch === undefined) continue;
    const treatment = treatmentOf(bench, batch, application);
    if (worstOne === null || badness[treatment.state] > badness[worstOne.state]) worstOne = treatment;
  }
  return worstOne;
}

import type { Application, Planting } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, caution, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import type { AnyLimits } from '../engine/limits.ts';
import { groundRecords, paperRecords, pileRecords, tankRecords, waterRecords } from '../engine/looks-at.ts';
import { defineRule, type Bench } from '../engine/rule.ts';
import { treatmentOf, type Treatment } from '../judging/treatment.ts';

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
  const crop = planting?.started.data.crop ?? 'the crop';
  const evidence = {
    figures: [
      { name: 'treatmentStatus', value: treatment.state },
      { name: 'edibleParts', value: made.edibleParts ?? null },
    ],
    recordIds,
  };
  if (planting !== null && outsideTheRule(planting))
    return notApplicable(book, `${crop} does not fall under the rule on contact.`);
  const meeting = meets(made, planting);
  const sprouts = planting?.started.data.ediblePart === 'seedForSprouts';
  if (meeting === 'none') return met(book, `The tea did not touch what is eaten of ${crop}.`, evidence);
  const because = treatment.because.length === 0 ? '' : ` (${treatment.because.join('; ')})`;
  switch (treatment.state) {
    case 'noAnimalOrigin':
      return met(book, 'Nothing of animal origin is in this tea.', evidence);
    case 'untreated':
      if (meeting === 'contact') {
        return broken(
          book,
          `Untreated tea${because} touched what is eaten of ${crop}${sprouts ? ', seed for sprouts' : ''}: do not harvest it for eating raw before you have spoken with the certifier.`,
          evidence,
        );
      }
      if (meeting === 'splash')
        return caution(
          book,
          `Untreated tea${because} was put on the ground of ${crop} with edible parts near it: contact afterwards has to be kept low.`,
          evidence,
        );
      return unknown(
        book,
        `Untreated tea${because} was put on ${crop}; whether edible parts were there is not recorded.`,
        evidence,
      );
    case 'treated':
      return meeting === 'contact'
        ? caution(
            book,
            `Treated tea touched what is eaten of ${crop}: with compost treatment, contact has to be kept low; only a process that meets the stricter standard allows any manner.`,
            evidence,
          )
        : met(book, `Treated tea on ${crop}, with contact kept low.`, evidence);
    case 'unknown':
      return meeting === 'splash'
        ? caution(
            book,
            `Whether this tea counts as treated is open${because}, and edible parts of ${crop} were near: contact afterwards has to be kept low.`,
            evidence,
          )
        : unknown(
            book,
            `Whether this tea counts as treated is open${because}, and it ${meeting === 'contact' ? 'touched' : 'may have touched'} what is eaten of ${crop}.`,
            evidence,
          );
  }
}

/** Status × method × edible part × presence, for each planting that was treated. */
export const contactAllowed = defineRule({
  id: 'contact-allowed',
  revision: 1,
  title: 'Contact with what is eaten',
  reason:
    'Tea of untreated animal materials must not touch produce while it is applied, and contact afterwards is kept low. So the method, the part that is eaten and whether it was there decide together.',
  basis: 'regulation',
  citation: '21 CFR 112.56(a), read 2026-11-25',
  severity: 'critical',
  packs: ['us-produce-safety'],
  parameters: z.object({}),
  chosenAt: 'the start of the application',
  looksAt: {
    kinds: ['application', 'batch', 'planting', 'field', 'lot', 'pile', 'material', 'source'],
    records: [...tankRecords, ...waterRecords, ...pileRecords, ...paperRecords, ...groundRecords],
  },
  judge: {
    application(application, given) {
      const book = given.limits(application.started.at);
      const made = application.record.data;
      if (made.method === 'compostWetting') return notApplicable(book, 'Compost was wetted; no crop was touched.');
      const treatment = worstTreatment(given, application);
      if (treatment === null)
        return unknown(book, 'Which batch this tea came from is not recorded.', { recordIds: [application.record.id] });
      const recordIds = [application.record.id, ...treatment.recordIds];
      const plantings = application.targets.flatMap(({ plantingIds }) =>
        plantingIds.map((id) => given.season.planting(id)),
      );
      const known = plantings.filter((planting) => planting !== undefined);
      return worst(
        (known.length === 0 ? [null] : known).map((planting) =>
          judgeMeeting(book, treatment, made, planting, recordIds),
        ),
        () => 'Other plantings were treated alike.',
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

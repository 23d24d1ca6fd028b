import { addDays, asOf, startOfDay, type Application, type Batch, type Season } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, caution, due, met, notApplicable } from '../engine/judgement.ts';
import { resting } from '../engine/limits.ts';
import { days } from '../engine/parameter.ts';
import { groundRecords, tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { changedSince } from '../judging/since-review.ts';
import { dayOf } from '../judging/water.ts';
import { timeOf } from '../judging/when.ts';
import { once, say, type Said } from '../words/index.ts';

const dayMs = 86_400_000;

/** Whether somebody's address is on record: the person's own, sealed or open, else the operation's. */
function addressKnown(season: Season, personId: string, at: number): boolean {
  const person = season.person(personId);
  if (person === undefined) return false;
  const { personal } = asOf(person, Infinity);
  if ('sealed' in personal || personal.address !== undefined) return true;
  return season.operation !== null && asOf(season.operation, at).address !== undefined;
}

/** What the record of an application leaves open of who, where, how much and with what. */
function missingFrom(season: Season, application: Application): Said[] {
  const { data } = application.record;
  const missing: Said[] = [];
  if (season.person(data.applicator) === undefined) missing.push(say('record-complete.who'));
  else if (!addressKnown(season, data.applicator, application.started.at)) missing.push(say('record-complete.address'));
  if (data.targets.length === 0) missing.push(say('record-complete.where'));
  for (const { fieldId, lotId, area, volume, count } of data.targets) {
    if (fieldId !== undefined && season.field(fieldId) === undefined) missing.push(say('record-complete.field'));
    if (lotId !== undefined && season.lot(lotId) === undefined) missing.push(say('record-complete.wetted'));
    if (fieldId !== undefined && area === undefined && volume === undefined && count === undefined)
      missing.push(say('record-complete.area'));
  }
  if (application.loads.length === 0) missing.push(say('record-complete.batch'));
  for (const { batchId, litres } of application.loads) {
    const batch = batchId === null ? undefined : season.batch(batchId);
    if (batch === undefined || (batch.opened === null && batch.receivedTea === null))
      missing.push(say('record-complete.batch'));
    else if (batch.ingredients.length === 0 && batch.receivedTea === null) missing.push(say('record-complete.madeOf'));
    else if (batch.ingredients.some(({ lotId }) => season.lot(lotId) === undefined))
      missing.push(say('record-complete.lot'));
    if (litres === null) missing.push(say('record-complete.amount'));
  }
  return once(missing);
}

/** From when a batch waits for its review: its closing, else the last use of its tea. null while nothing came of it. */
function doneAt(batch: Batch): number | null {
  if (batch.closed !== null) return batch.closed.at.at;
  const ends = [
    ...batch.draws.map(({ appliedUntil }) => appliedUntil?.at ?? -Infinity),
    ...batch.losses.map(({ at }) => at.at),
  ];
  const last = Math.max(-Infinity, ...ends);
  return Number.isFinite(last) ? last : null;
}

/** The content that regulations ask of an application's record, and the review of the batch. */
export const recordComplete = defineRule({
  id: 'record-complete',
  revision: 1,
  title: 'Record complete, reviewed and signed',
  reason:
    'Who applied what, where, when, how much and how is what the law asks to find five years later. A second pair of eyes while people still remember is what makes such a record right.',
  basis: 'regulation',
  citation:
    '7 USC 6519(a)(2), 7 CFR 205.103(b), 21 CFR 112.161, read 2026-11-25; the days until the review are common practice, no source',
  severity: 'minor',
  packs: ['us-organic', 'us-produce-safety'],
  parameters: () =>
    z.object({
      reviewDays: days(30, 'Days until a batch is reviewed and signed.'),
      beforeHarvestDays: days(7, 'Days before the first harvest by which it is reviewed and signed.'),
    }),
  chosenAt: 'the start of the application; for the review, the closing',
  looksAt: {
    kinds: ['application', 'batch', 'person', 'field', 'harvest', 'lot', 'operation'],
    records: [
      ...tankRecords,
      ...groundRecords,
      'batch.reviewed',
      'person.registered',
      'person.revised',
      'person.erased',
      'operation.described',
      'operation.revised',
      'batch.oxygenMeasured',
      'batch.checked',
      'batch.chlorineMeasured',
      'batch.sampled',
      'batch.analysed',
      'record.amended',
      'record.struck',
    ],
  },
  judge: {
    application(application, { limits, season }) {
      const book = limits(application.started.at);
      const missing = missingFrom(season, application);
      const evidence = {
        recordIds: [application.record.id],
        figures: [{ name: 'missing', value: missing.length, limit: 0 }],
      };
      return missing.length === 0
        ? met(book, say('record-complete.all'), evidence)
        : broken(book, say('record-complete.missing', { missing }), evidence);
    },
    batch(batch, { limits, season, now, reach }) {
      const done = doneAt(batch);
      if (done === null) return notApplicable(limits(now), say('record-complete.underWay'));
      const book = resting(limits(done), 'practice');
      const { reviewDays, beforeHarvestDays } = book.parameters;
      const harvest = reach
        .harvestsAfter(season.applicationsOf(batch.id))
        .reduce<number | null>((first, { at }) => Math.min(first ?? Infinity, at.at), null);
      const beforeHarvest =
        harvest === null ? Infinity : startOfDay(addDays(dayOf(season, harvest), -beforeHarvestDays), season.timeZone);
      // A harvest so soon after that no day is left does not ask for a review before the tea was used.
      const by = Math.max(done, Math.min(done + reviewDays * dayMs, beforeHarvest));
      const review = batch.reviews.find(({ at }) => at.at >= done) ?? null;
      const why =
        by === beforeHarvest
          ? say('record-complete.beforeHarvest', { days: beforeHarvestDays })
          : by === done && reviewDays > 0
            ? say('record-complete.harvestSoon', { days: beforeHarvestDays })
            : say('record-complete.afterDone', { days: reviewDays });
      if (review === null) {
        return now <= by
          ? due(book, by, say('due.review'), say('record-complete.due', { by: timeOf(season, by), why }))
          : broken(book, say('record-complete.notReviewed', { by: timeOf(season, by), why }), { since: by });
      }
      const last = batch.reviews.at(-1) ?? review;
      const evidence = { recordIds: [review.id, last.id].filter((id, i, all) => all.indexOf(id) === i) };
      if (review.at.at > by)
        return broken(
          book,
          say('record-complete.late', { on: dayOf(season, review.at.at), by: timeOf(season, by), why }),
          evidence,
        );
      const after = changedSince(batch, last.data.throughSeq);
      return after.length === 0
        ? met(book, say('record-complete.signed', { on: dayOf(season, review.at.at) }), evidence)
        : caution(book, say('record-complete.since', { on: dayOf(season, review.at.at), n: after.length }), {
            recordIds: [...evidence.recordIds, ...after.map(({ id }) => id)],
          });
    },
  },
});

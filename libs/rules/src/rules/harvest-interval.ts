import {
  addDays,
  daysBetween,
  startOfDay,
  type Application,
  type Harvest,
  type Planting,
  type Season,
} from '@furrowmark/domain';
import { z } from 'zod';
import { broken, due, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { resting, type Limits } from '../engine/limits.ts';
import { byRegulation, days } from '../engine/parameter.ts';
import { groundRecords, paperRecords, pileRecords, tankRecords, testRecords } from '../engine/looks-at.ts';
import { defineRule, type Bench } from '../engine/rule.ts';
import { daysOf } from '../judging/lot-uses.ts';
import { waitingOf, type Waiting } from '../judging/raw-for-organic.ts';
import { dayOf } from '../judging/water.ts';
import { say, type Said } from '../words/index.ts';

const parameters = () =>
  z.object({
    soilContactDays: byRegulation(
      'atLeast',
      days(120, 'Days to the harvest where the part that is eaten touches the soil.'),
    ),
    otherDays: byRegulation('atLeast', days(90, 'Days to the harvest where it does not.')),
  });
type P = z.output<ReturnType<typeof parameters>>;

/** Least and most days that may be right. */
interface Days {
  readonly least: number;
  readonly most: number;
}

/** Days that a crop asks for; null where it is not for people. */
function daysFor(planting: Planting | undefined, { soilContactDays, otherDays }: P): Days | null {
  switch (planting?.started.data.ediblePart) {
    case 'notForFood':
      return null;
    case 'fruitAbove':
    case 'tree':
    case 'grain':
      return { least: otherDays, most: otherDays };
    case 'root':
    case 'leaf':
    case 'stem':
    case 'fruitOnGround':
    case 'seedForSprouts':
      return { least: soilContactDays, most: soilContactDays };
    case undefined:
      return { least: otherDays, most: soilContactDays };
  }
}

/** Days that a harvest asks for, of whichever crop it may be; null where none of them is for people. */
function daysForAny(crops: readonly Planting[], limits: P): Days | null {
  if (crops.length === 0) return daysFor(undefined, limits);
  const asked = crops.flatMap((crop) => daysFor(crop, limits) ?? []);
  return asked.length === 0
    ? null
    : { least: Math.min(...asked.map((each) => each.least)), most: Math.max(...asked.map((each) => each.most)) };
}

/** The crops that a harvest may be of: the one it names, else those that stood on its ground. */
function cropsOf(season: Season, { plantingId, fieldId, at }: Harvest): readonly Planting[] {
  const named = plantingId === null ? undefined : season.planting(plantingId);
  if (plantingId !== null) return named === undefined ? [] : [named];
  return season.plantingsStanding(fieldId, at.at);
}

/** Own wording of why: a regulation for raw manure, a guideline for additives. */
const footing = (limits: Limits<P>, waiting: Waiting): Limits<P> =>
  waiting.kind === 'additive' ? resting(limits, 'guideline', 'minor') : limits;

function judgePair(
  bench: Bench,
  limits: Limits<P>,
  application: Application,
  harvest: Harvest,
  crops: readonly Planting[],
): Judgement | null {
  const { season } = bench;
  const waiting = waitingOf(bench, application);
  if (waiting.kind === 'none') return null;
  const book = footing(limits, waiting);
  const asked = daysForAny(crops, book.parameters);
  if (asked === null) return notApplicable(book, say('harvest-interval.notForPeople'));
  const applied = daysOf(season, application.finished);
  const cut = daysOf(season, harvest.at);
  const [first = '', last = first] = [applied[0], applied.at(-1)];
  const least = daysBetween(last, cut[0] ?? '');
  const most = daysBetween(first, cut.at(-1) ?? '');
  const evidence = {
    figures: [
      {
        name: 'daysToHarvest',
        value: least,
        unit: 'd',
        limit: asked.most,
        ...(least === most ? {} : { range: [least, most] as const }),
      },
    ],
    recordIds: [application.record.id, harvest.record.id],
  };
  const said = (): Said =>
    say('harvest-interval.said', {
      code: application.code,
      applied: last,
      harvest: harvest.code,
      cut: cut[0] ?? '',
      days: least,
    });
  if (least >= asked.most) return met(book, () => say('common.stop', { said: said() }), evidence);
  if (waiting.kind === 'unknown') {
    return unknown(
      book,
      () =>
        say('harvest-interval.open', {
          said: said(),
          asked:
            asked.most === asked.least
              ? asked.most
              : say('harvest-interval.leastOrMost', { least: asked.least, most: asked.most }),
          why: waiting.why,
        }),
      evidence,
    );
  }
  if (most < asked.least)
    return broken(book, () => say('harvest-interval.over', { said: said(), asked: asked.least, why: waiting.why }), {
      ...evidence,
      own: () => say('harvest-interval.own', { said: said(), asked: asked.least }),
    });
  return unknown(
    book,
    () =>
      say('harvest-interval.unsure', {
        said: said(),
        asked:
          asked.least === asked.most
            ? asked.most
            : say('harvest-interval.bySoil', { least: asked.least, most: asked.most }),
        why: asked.least === asked.most ? say('harvest-interval.daysUnsure') : say('harvest-interval.cropUnknown'),
      }),
    evidence,
  );
}

/** Days from what counts as raw manure, or tea with unproven additives, to every later harvest of that ground. */
export const harvestInterval = defineRule({
  id: 'harvest-interval',
  revision: 5,
  title: 'Days from application to harvest',
  reason:
    'Germs from raw animal matter die off in soil with time; the organic rule waits 120 days where what is eaten touches the soil, 90 elsewhere. It goes by the ground and the dates, whichever crop stood there when the tea went on.',
  basis: 'regulation',
  citation:
    '7 CFR 205.203(c)(1), 2015 edition, read 2026-11-26; for tea with additives: NOSB recommendation, advisory, from memory',
  severity: 'major',
  packs: ['us-organic'],
  parameters,
  perBatch: ['harvest'],
  chosenAt: 'the start of the application',
  looksAt: {
    kinds: ['harvest', 'application', 'batch', 'field', 'planting', 'lot', 'pile', 'material'],
    records: [...tankRecords, ...pileRecords, ...paperRecords, ...groundRecords, ...testRecords],
  },
  judge: {
    harvest(harvest, given) {
      const { limits, season, reach, beside } = given;
      const own = beside === null ? null : new Set(season.applicationsOf(beside).map(({ id }) => id));
      const crops = cropsOf(season, harvest);
      const before = reach
        .applicationsOn(harvest.fieldId)
        .filter(({ id, started }) => started.at <= harvest.at.at && (own === null || own.has(id)));
      // Only what lies within the longest waiting time can matter; older ones are met by the calendar alone.
      const judgements = before.flatMap((application) => {
        const book = limits(application.started.at);
        const judgement = judgePair(given, book, application, harvest, crops);
        return judgement === null ? [] : [judgement];
      });
      return (
        worst(judgements, (n) => say('harvest-interval.more', { n })) ??
        notApplicable(limits(harvest.at.at), say('harvest-interval.none'))
      );
    },
    application(application, given) {
      const { limits, season, reach, now } = given;
      const fields = application.targets.flatMap(({ fieldId }) => (fieldId === undefined ? [] : [fieldId]));
      if (fields.length === 0) return null;
      const waiting = waitingOf(given, application);
      if (waiting.kind === 'none') return null;
      const book = footing(limits(application.started.at), waiting);
      const later = fields.some((fieldId) =>
        reach.harvestsOn(fieldId).some(({ at }) => at.at > application.started.at),
      );
      // The harvests themselves are judged once they are there.
      if (later) return null;
      const plantings = application.targets.flatMap(({ plantingIds }) => plantingIds.map((id) => season.planting(id)));
      const asked = (plantings.length === 0 ? [undefined] : plantings).flatMap(
        (planting) => daysFor(planting, book.parameters) ?? [],
      );
      const most = Math.max(...asked.map((each) => each.most));
      if (asked.length === 0) return null;
      const free = addDays(dayOf(season, application.finished.to), Math.ceil(most));
      const at = startOfDay(free, season.timeZone);
      const why =
        waiting.kind === 'unknown'
          ? say('harvest-interval.asLong', { why: waiting.why })
          : say('harvest-interval.because', { why: waiting.why });
      const words = say('harvest-interval.from', { free, why });
      const evidence = { recordIds: [application.record.id], figures: [{ name: 'harvestFrom', value: free }] };
      return now < at ? due(book, at, say('due.harvestFrom'), words, evidence) : met(book, words, evidence);
    },
  },
});

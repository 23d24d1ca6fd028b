import {
  addDays,
  daysBetween,
  endOfDay,
  type Application,
  type Equipment,
  type Instant,
  type Season,
} from '@furrowmark/domain';
import { z } from 'zod';
import { broken, met, notApplicable, worst, type Judgement } from '../engine/judgement.ts';
import { days } from '../engine/parameter.ts';
import { defineRule, type Owed } from '../engine/rule.ts';
import { atEitherEnd } from '../judging/at-either-end.ts';
import { dayOf } from '../judging/water.ts';
import { say } from '../words/index.ts';

const applies: ReadonlySet<string> = new Set(['sprayer', 'injector', 'drench', 'spreader']);

/** Applications made with it, of a batch's tea; null = of any. */
function usesOf(season: Season, equipment: Equipment, batchId: string | null): readonly Application[] {
  if (batchId !== null)
    return season.applicationsOf(batchId).filter(({ record }) => record.data.equipmentId === equipment.id);
  return season.naming('application.made', equipment.id).flatMap((record): Application[] => {
    if (record.data.equipmentId !== equipment.id) return [];
    const application = season.application(record.data.applicationId);
    return application?.record.id === record.id ? [application] : [];
  });
}

/** By when the output is measured again: at the end of its days, or since a change. */
function nextMeasuring(
  { retired, calibrations, revisions }: Equipment,
  validDays: number,
  season: Season,
): Owed | null {
  const last = calibrations.at(-1);
  if (retired !== undefined || last === undefined) return null;
  const what = say('due.measureOutput');
  const changed = revisions.find(({ from }) => from > last.at.at);
  if (changed !== undefined) return { at: changed.from, what };
  return { at: endOfDay(addDays(dayOf(season, last.at.at), Math.floor(validDays)), season.timeZone), what };
}

/** Output measured this season, and again since the equipment was changed. */
export const equipmentCalibrated = defineRule({
  id: 'equipment-calibrated',
  revision: 3,
  title: 'Sprayer output measured',
  reason:
    'The rate on the record is what the nozzles gave, not what the chart says. Worn or exchanged nozzles give something else, so the output is measured each season and after a change.',
  basis: 'practice',
  citation: 'common practice, no source; rate of what is applied: 7 USC 6519(a)(2), read 2026-11-25',
  severity: 'notice',
  packs: ['practice'],
  parameters: () => z.object({ validDays: days(365, 'Days for which a measurement counts.') }),
  owes: {
    equipment: (equipment, { limits, season, now }) =>
      applies.has(equipment.registered.kind) && usesOf(season, equipment, null).length > 0
        ? nextMeasuring(equipment, limits(now).parameters.validDays, season)
        : null,
  },
  perBatch: ['equipment'],
  chosenAt: 'the start of the application',
  looksAt: {
    kinds: ['equipment', 'application'],
    records: ['equipment.registered', 'equipment.revised', 'equipment.calibrated', 'application.made'],
  },
  judge: {
    equipment(equipment, { limits, season, now, beside }) {
      const { code, kind } = equipment.registered;
      if (!applies.has(kind)) return null;
      const uses = usesOf(season, equipment, beside);
      const judge = ({ started, record, code: application }: Application, at: Instant): Judgement => {
        const book = limits(started.at);
        const valid = book.parameters.validDays;
        const day = dayOf(season, at);
        const said = say('equipment-calibrated.used', { code, application, day });
        const last = equipment.calibrations.findLast((each) => each.at.at <= at);
        const changed = equipment.revisions.findLast(({ from }) => from <= at);
        const recordIds = [record.id, ...(last === undefined ? [] : [last.id])];
        if (last === undefined) return broken(book, say('equipment-calibrated.never', { said }), { recordIds });
        return atEitherEnd(last.at, (calibrated) => {
          const on = dayOf(season, calibrated);
          const age = daysBetween(on, day);
          const figures = [{ name: 'calibrationAgeDays', value: age, unit: 'd', limit: valid }];
          const evidence = { figures, recordIds };
          if (changed !== undefined && changed.from > calibrated)
            return broken(book, say('equipment-calibrated.changed', { said, last: on }), evidence);
          const words = say('equipment-calibrated.age', { said, last: on, valid });
          return age > valid ? broken(book, words, evidence) : met(book, words, evidence);
        });
      };
      const judgements = uses.map((use) => atEitherEnd(use.started, (at) => judge(use, at)));
      return (
        worst(judgements, (n) => say('common.moreUses', { n })) ??
        notApplicable(limits(now), say('equipment-calibrated.unused'))
      );
    },
  },
});

import { addDays, endOfDay, type Instant } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, met, worst, type Judgement } from '../engine/judgement.ts';
import { byRegulation, days } from '../engine/parameter.ts';
import { defineRule } from '../engine/rule.ts';
import { atEitherEnd } from '../judging/at-either-end.ts';
import { dayOf } from '../judging/water.ts';
import { say } from '../words/index.ts';

/** Whoever applies tea was trained before, and again each year. */
export const personTrained = defineRule({
  id: 'person-trained',
  revision: 3,
  title: 'Trained before handling tea',
  reason:
    'Tea of animal materials is handled by people who then touch produce. They are trained when they are hired and once a year, and the record of it is among the first things an inspector asks for.',
  basis: 'regulation',
  citation:
    '21 CFR 112.21(a) (upon hiring, and at least once annually), as of 2026-04-05, and 112.30(b) (date, topics, persons), both read 2026-11-25',
  severity: 'notice',
  packs: ['us-produce-safety'],
  parameters: () => z.object({ validDays: byRegulation('atMost', days(365, 'Days for which a training counts.')) }),
  owes: {
    /** Whoever applied tea is trained again before the last training ends. */
    person(person, { limits, season, now }) {
      const last = person.trainings.at(-1);
      const applies = season.naming('application.made', person.id).some(({ data }) => data.applicator === person.id);
      if (!applies || last === undefined || person.retired !== undefined) return null;
      const until = addDays(dayOf(season, last.at.at), Math.floor(limits(now).parameters.validDays));
      return { at: endOfDay(until, season.timeZone), what: say('due.train') };
    },
  },
  chosenAt: 'the start of the application',
  looksAt: { kinds: ['person', 'application'], records: ['person.registered', 'person.trained', 'application.made'] },
  judge: {
    person(person, { limits, season }) {
      const judgements = season.naming('application.made', person.id).flatMap((record): Judgement[] => {
        if (record.data.applicator !== person.id) return [];
        const application = season.application(record.data.applicationId);
        if (application === undefined || application.record.id !== record.id) return [];
        const book = limits(application.started.at);
        const judge = (started: Instant): Judgement => {
          const day = dayOf(season, started);
          const last = person.trainings.findLast(({ at }) => dayOf(season, at.at) <= day);
          const said = say('person-trained.applied', { code: application.code, day });
          if (last === undefined)
            return broken(book, say('person-trained.never', { said }), { recordIds: [record.id] });
          return atEitherEnd(last.at, (at) => {
            const trained = dayOf(season, at);
            const evidence = {
              recordIds: [record.id, last.id],
              figures: [
                { name: 'trainedOn', value: trained },
                { name: 'appliedOn', value: day },
              ],
            };
            const words = say('person-trained.last', {
              said,
              trained,
              topic: last.data.topic,
              validDays: book.parameters.validDays,
            });
            return addDays(trained, book.parameters.validDays) < day
              ? broken(book, words, evidence)
              : met(book, words, evidence);
          });
        };
        return [atEitherEnd(application.started, judge)];
      });
      return worst(judgements, (n) => say('person-trained.more', { n }));
    },
  },
});

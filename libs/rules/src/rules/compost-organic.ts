import { addDays, daysBetween, startOfDay, type Pile, type Season } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, caution, due, met, notApplicable, unknown, type Judgement } from '../engine/judgement.ts';
import { resting, type Limits } from '../engine/limits.ts';
import { amount, byRegulation, days, leftOpen, temperature } from '../engine/parameter.ts';
import { pileRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { animalOriginOfPile } from '../judging/animal-origin.ts';
import { atEitherEnd } from '../judging/at-either-end.ts';
import { heatOf } from '../judging/compost-process.ts';
import { dayOf } from '../judging/water.ts';
import { say } from '../words/index.ts';

const parameters = () =>
  z.object({
    leastCarbonToNitrogen: byRegulation('atLeast', amount('1', 25, 'Least C:N at the start.')),
    mostCarbonToNitrogen: byRegulation('atMost', amount('1', 40, 'Highest C:N at the start.')),
    leastF: byRegulation('atLeast', temperature('[degF]', 131, 'Least temperature.')),
    mostF: byRegulation('atMost', temperature('[degF]', 170, 'Highest temperature.')),
    windrowDays: byRegulation('atLeast', days(15, 'Days at temperature in a windrow.')),
    windrowTurnings: byRegulation('atLeast', amount('{turnings}', 5, 'Turnings of a windrow during those days.')),
    staticDays: byRegulation('atLeast', days(3, 'Days at temperature in a vessel or an aerated static pile.')),
    wormDays: leftOpen('atLeast', days(365, 'Days after which worm compost is old enough in any system.')),
    wormLeastDays: leftOpen('atLeast', days(60, 'Least days of worm compost in any system.')),
  });
type P = z.output<ReturnType<typeof parameters>>;

/** Worm compost is not heated; how long it takes depends on the system, which no record tells. */
function wormCompost(season: Season, pile: Pile, limits: Limits<P>): Judgement {
  const book = resting(limits, 'guideline', 'minor');
  const finished = pile.finishes[0];
  const start = dayOf(season, pile.started.at.at);
  const { wormDays, wormLeastDays } = limits.parameters;
  if (finished === undefined) {
    const by = startOfDay(addDays(start, wormDays), season.timeZone);
    return due(book, by, say('due.finishWorm'), say('compost-organic.growing', { start }), {
      recordIds: [pile.started.id],
    });
  }
  return atEitherEnd(finished.at, (at) => {
    const age = daysBetween(start, dayOf(season, at));
    const evidence = {
      figures: [{ name: 'days', value: age, unit: 'd', advised: wormDays, limit: wormLeastDays }],
      recordIds: [pile.started.id, finished.id],
    };
    const said = say('compost-organic.wormAge', { age });
    if (age < wormLeastDays) return broken(book, say('compost-organic.wormYoung', { said, wormLeastDays }), evidence);
    if (age < wormDays) return caution(book, say('compost-organic.wormSystem', { said }), evidence);
    return met(book, say('common.stop', { said }), evidence);
  });
}

/** Own compost against the organic regulation. */
export const compostOrganic = defineRule({
  id: 'compost-organic',
  revision: 2,
  title: 'Own compost made by the organic process',
  reason:
    'Compost with animal materials counts as compost only when its mix, heat, days and turnings are on record; otherwise it is raw manure, with the waiting time of raw manure. A day that nobody measured is not a day at temperature.',
  basis: 'regulation',
  citation:
    '7 CFR 205.203(c)(2), 2015 edition, read 2026-11-26; worm compost: NOP 5021, its beginning read 2026-11-25, the days from memory',
  severity: 'major',
  packs: ['us-organic'],
  parameters,
  chosenAt: 'the start of the pile',
  looksAt: {
    kinds: ['pile', 'lot', 'material'],
    records: [...pileRecords],
  },
  judge: {
    pile(pile, { limits, season }) {
      const book = limits(pile.started.at.at);
      const p = book.parameters;
      const { method, carbonToNitrogen } = pile.started.data;
      const origin = animalOriginOfPile(season, pile);
      if (origin === 'no') return notApplicable(book, say('compost-organic.plantOnly'));
      if (method === 'vermicompost') return wormCompost(season, pile, book);
      const recordIds = [pile.started.id];
      if (method === 'passive') {
        return broken(book, say('compost-organic.passive'), { recordIds });
      }
      const windrow = method === 'windrow';
      const needed = windrow ? p.windrowDays : p.staticDays;
      const turnings = windrow ? p.windrowTurnings : 0;
      const heat = heatOf(season, pile, { leastF: p.leastF, mostF: p.mostF, days: needed, turnings, inARow: true });
      const asked = say('compost-organic.asked', {
        needed,
        leastF: p.leastF,
        mostF: p.mostF,
        with: windrow ? say('compost.withTurnings', { turnings }) : null,
      });
      const evidence = {
        figures: [
          { name: 'daysAtTemperature', value: heat.bestDays, unit: 'd', limit: needed },
          ...(windrow ? [{ name: 'turnings', value: heat.turnings, limit: turnings }] : []),
          ...(carbonToNitrogen === undefined
            ? []
            : [{ name: 'carbonToNitrogen', value: carbonToNitrogen, unit: '1', limit: p.mostCarbonToNitrogen }]),
        ],
        recordIds: heat.recordIds,
      };
      const ratio =
        carbonToNitrogen === undefined
          ? null
          : carbonToNitrogen >= p.leastCarbonToNitrogen && carbonToNitrogen <= p.mostCarbonToNitrogen;
      const counts = say('compost-organic.counts');
      const shown = {
        bestDays: heat.bestDays,
        and: windrow ? say('compost.andTurnings', { turnings: heat.turnings }) : null,
        asked,
      };
      if (ratio === false) {
        return broken(
          book,
          say('compost-organic.ratio', {
            carbonToNitrogen: carbonToNitrogen ?? 0,
            least: p.leastCarbonToNitrogen,
            most: p.mostCarbonToNitrogen,
            counts,
          }),
          {
            ...evidence,
            own: say('compost-organic.ownRatio', {
              carbonToNitrogen: carbonToNitrogen ?? 0,
              least: p.leastCarbonToNitrogen,
              most: p.mostCarbonToNitrogen,
            }),
          },
        );
      }
      if (heat.state === 'notReached')
        return broken(book, say('compost-organic.notReached', { ...shown, counts }), {
          ...evidence,
          own: say('compost.own', shown),
        });
      if (heat.state === 'running') {
        const by = startOfDay(addDays(dayOf(season, pile.started.at.at), needed), season.timeZone);
        return due(book, by, say('due.measurePile'), say('compost.running', { asked }), evidence);
      }
      if (heat.state === 'unsure') return unknown(book, say('compost.unsure', shown), evidence);
      if (heat.state === 'missed') {
        return unknown(book, say('compost.missed', { missedDays: heat.missedDays, asked }), evidence);
      }
      if (ratio === null) return unknown(book, say('compost-organic.noRatio'), evidence);
      return met(book, say('compost-organic.reached', { asked, carbonToNitrogen: carbonToNitrogen ?? 0 }), evidence);
    },
  },
});

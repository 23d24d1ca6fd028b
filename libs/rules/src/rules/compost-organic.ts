import { addDays, daysBetween, startOfDay, type Pile, type Season } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, caution, due, met, notApplicable, unknown, type Judgement } from '../engine/judgement.ts';
import { resting, type Limits } from '../engine/limits.ts';
import { amount, byRegulation, days, temperature } from '../engine/parameter.ts';
import { pileRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { animalOriginOfPile } from '../judging/animal-origin.ts';
import { heatOf } from '../judging/compost-process.ts';
import { dayOf } from '../judging/water.ts';
import { countWords, dayWords, figureWords } from '../judging/when.ts';

const parameters = z.object({
  leastCarbonToNitrogen: byRegulation('atLeast', amount('1', 25, 'Least C:N at the start.')),
  mostCarbonToNitrogen: byRegulation('atMost', amount('1', 40, 'Highest C:N at the start.')),
  leastF: byRegulation('atLeast', temperature('[degF]', 131, 'Least temperature.')),
  mostF: byRegulation('atMost', temperature('[degF]', 170, 'Highest temperature.')),
  windrowDays: byRegulation('atLeast', days(15, 'Days at temperature in a windrow.')),
  windrowTurnings: byRegulation('atLeast', amount('{turnings}', 5, 'Turnings of a windrow during those days.')),
  staticDays: byRegulation('atLeast', days(3, 'Days at temperature in a vessel or an aerated static pile.')),
  wormDays: days(365, 'Days after which worm compost is old enough in any system.'),
  wormLeastDays: days(60, 'Least days of worm compost in any system.'),
});
type P = z.output<typeof parameters>;

/** Worm compost is not heated; how long it takes depends on the system, which no record tells. */
function wormCompost(season: Season, pile: Pile, limits: Limits<P>): Judgement {
  const book = resting(limits, 'guideline', 'minor');
  const finished = pile.finishes[0];
  const start = dayOf(season, pile.started.at.at);
  const { wormDays, wormLeastDays } = limits.parameters;
  if (finished === undefined) {
    const by = startOfDay(addDays(start, wormDays), season.timeZone);
    return due(book, by, 'finish the worm compost', `Worm compost begun on ${dayWords(start)} is still growing.`, {
      recordIds: [pile.started.id],
    });
  }
  const age = daysBetween(start, dayOf(season, finished.at.at));
  const evidence = {
    figures: [{ name: 'days', value: age, unit: 'd', advised: wormDays, limit: wormLeastDays }],
    recordIds: [pile.started.id, finished.id],
  };
  const said = `Worm compost was ${age} days old when finished`;
  if (age < wormLeastDays) return broken(book, `${said}; the least in any system is ${wormLeastDays}.`, evidence);
  if (age < wormDays) {
    return caution(
      book,
      `${said}: enough for some systems (60 days in a continuous flow reactor, 4 months in containers indoors), not for windrows outdoors (12 months). Show the certifier which it was.`,
      evidence,
    );
  }
  return met(book, `${said}.`, evidence);
}

/** Own compost against the organic regulation. */
export const compostOrganic = defineRule({
  id: 'compost-organic',
  revision: 1,
  title: 'Own compost made by the organic process',
  reason:
    'Compost with animal materials counts as compost only when its mix, heat, days and turnings are on record; otherwise it is raw manure, with the waiting time of raw manure. A day that nobody measured is not a day at temperature.',
  basis: 'regulation',
  citation: '7 CFR 205.203(c)(2), in a secondary copy, read 2026-11-25; worm compost: NOP 5021, from memory',
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
      if (origin === 'no')
        return notApplicable(book, 'Nothing of animal origin went in: plant material need not be heated.');
      if (method === 'vermicompost') return wormCompost(season, pile, book);
      const recordIds = [pile.started.id];
      if (method === 'passive') {
        return broken(
          book,
          'A pile that is neither turned nor aerated is not among the processes of the regulation: it counts as raw manure, with 120 or 90 days to the harvest.',
          { recordIds },
        );
      }
      const windrow = method === 'windrow';
      const needed = windrow ? p.windrowDays : p.staticDays;
      const turnings = windrow ? p.windrowTurnings : 0;
      const heat = heatOf(season, pile, { leastF: p.leastF, mostF: p.mostF, days: needed, turnings, inARow: true });
      const asked = `${needed} days in a row between ${figureWords(p.leastF)} and ${figureWords(p.mostF)} °F${windrow ? ` with ${countWords(turnings, 'turning')}` : ''}`;
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
      const counts = 'It counts as raw manure, with 120 or 90 days to the harvest.';
      if (ratio === false) {
        return broken(
          book,
          `The mix began at ${figureWords(carbonToNitrogen ?? 0)}:1; the range is ${p.leastCarbonToNitrogen}:1 to ${p.mostCarbonToNitrogen}:1. ${counts}`,
          evidence,
        );
      }
      if (heat.state === 'notReached')
        return broken(
          book,
          `The records show ${countWords(heat.bestDays, 'such day')} in a row${windrow ? ` and ${countWords(heat.turnings, 'turning')}` : ''}; asked are ${asked}. ${counts}`,
          evidence,
        );
      if (heat.state === 'running') {
        const by = startOfDay(addDays(dayOf(season, pile.started.at.at), needed), season.timeZone);
        return due(book, by, 'measure the pile every day', `The pile is not finished; asked are ${asked}.`, evidence);
      }
      if (heat.state === 'missed') {
        return unknown(
          book,
          `No temperature is recorded for ${heat.missedDays} of the days; asked are ${asked}.`,
          evidence,
        );
      }
      if (ratio === null) return unknown(book, 'The C:N of the mix at the start is not recorded.', evidence);
      return met(
        book,
        `The records show ${asked}, and ${figureWords(carbonToNitrogen ?? 0)}:1 at the start.`,
        evidence,
      );
    },
  },
});

import { addDays, startOfDay } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, due, met, notApplicable, unknown } from '../engine/judgement.ts';
import { amount, byRegulation, days, temperature } from '../engine/parameter.ts';
import { pileRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { animalOriginOfPile } from '../judging/animal-origin.ts';
import { heatOf } from '../judging/compost-process.ts';
import { dayOf } from '../judging/water.ts';
import { say } from '../words/index.ts';

/** Own compost against the produce rule: heat and curing, no C:N. */
export const compostProduce = defineRule({
  id: 'compost-produce',
  revision: 2,
  title: 'Own compost treated as the produce rule asks',
  reason:
    'Only a process that is known to kill pathogens, and that the records show was kept to the end, makes compost a treated one. After the heat it is cured, so that nothing grows back.',
  basis: 'regulation',
  citation:
    '21 CFR 112.54(b), read 2026-11-26 (the 15 days of a turned pile do not have to be consecutive); own records of time, temperature and turnings: 21 CFR 112.60(b), read 2026-11-25',
  severity: 'major',
  packs: ['us-produce-safety'],
  parameters: () =>
    z.object({
      leastF: byRegulation('atLeast', temperature('[degF]', 131, 'Least temperature.')),
      windrowDays: byRegulation('atLeast', days(15, 'Days at temperature in a turned pile.')),
      windrowTurnings: byRegulation('atLeast', amount('{turnings}', 5, 'Turnings during those days.')),
      staticDays: byRegulation('atLeast', days(3, 'Days at temperature in a vessel or an aerated static pile.')),
    }),
  chosenAt: 'the start of the pile',
  looksAt: {
    kinds: ['pile', 'lot', 'material'],
    records: [...pileRecords],
  },
  judge: {
    pile(pile, { limits, season }) {
      const book = limits(pile.started.at.at);
      const p = book.parameters;
      const { method } = pile.started.data;
      if (animalOriginOfPile(season, pile) === 'no') {
        return notApplicable(book, say('compost-produce.plantOnly'));
      }
      const recordIds = [pile.started.id];
      if (method === 'vermicompost' || method === 'passive') {
        const how = method === 'vermicompost' ? say('compost-produce.worm') : say('compost-produce.passive');
        return unknown(book, say('compost-produce.otherProcess', { how }), { recordIds });
      }
      const windrow = method === 'windrow';
      const needed = windrow ? p.windrowDays : p.staticDays;
      const turnings = windrow ? p.windrowTurnings : 0;
      const heat = heatOf(season, pile, { leastF: p.leastF, mostF: null, days: needed, turnings, inARow: !windrow });
      const asked = windrow
        ? say('compost-produce.askedTurned', { needed, leastF: p.leastF, turnings })
        : say('compost-produce.asked', { needed, leastF: p.leastF });
      const evidence = {
        figures: [
          { name: 'daysAtTemperature', value: heat.bestDays, unit: 'd', limit: needed },
          ...(windrow ? [{ name: 'turnings', value: heat.turnings, limit: turnings }] : []),
        ],
        recordIds: heat.recordIds,
      };
      const shown = {
        bestDays: heat.bestDays,
        and: windrow ? say('compost.andTurnings', { turnings: heat.turnings }) : null,
        asked,
      };
      switch (heat.state) {
        case 'notReached':
          return broken(book, say('compost-produce.notReached', shown), {
            ...evidence,
            own: say('compost.own', shown),
          });
        case 'running':
          return due(
            book,
            startOfDay(addDays(dayOf(season, pile.started.at.at), needed), season.timeZone),
            say('due.measurePile'),
            say('compost.running', { asked }),
            evidence,
          );
        case 'unsure':
          return unknown(book, say('compost.unsure', shown), evidence);
        case 'missed':
          return unknown(book, say('compost.missed', { missedDays: heat.missedDays, asked }), evidence);
        case 'reached': {
          const finished = pile.finishes[0];
          return finished?.data.curedFrom === undefined
            ? unknown(book, say('compost-produce.notCured', { asked }), evidence)
            : met(book, say('compost-produce.reached', { asked }), {
                ...evidence,
                recordIds: [...evidence.recordIds, finished.id],
              });
        }
      }
    },
  },
});

import { addDays, startOfDay } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, due, met, notApplicable, unknown } from '../engine/judgement.ts';
import { amount, byRegulation, days, temperature } from '../engine/parameter.ts';
import { pileRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { animalOriginOfPile } from '../judging/animal-origin.ts';
import { heatOf } from '../judging/compost-process.ts';
import { dayOf } from '../judging/water.ts';
import { countWords, figureWords } from '../judging/when.ts';

/** Own compost against the produce rule: heat and curing, no C:N. */
export const compostProduce = defineRule({
  id: 'compost-produce',
  revision: 1,
  title: 'Own compost treated as the produce rule asks',
  reason:
    'Only a process that is known to kill pathogens, and that the records show was kept to the end, makes compost a treated one. After the heat it is cured, so that nothing grows back.',
  basis: 'regulation',
  citation:
    '21 CFR 112.54(b), from memory (the 15 days of a turned pile need not be consecutive); own records of time, temperature and turnings: 21 CFR 112.60(b), read 2026-11-25',
  severity: 'major',
  packs: ['us-produce-safety'],
  parameters: z.object({
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
        return notApplicable(book, 'Nothing of animal origin went in.');
      }
      const recordIds = [pile.started.id];
      if (method === 'vermicompost' || method === 'passive') {
        const how = method === 'vermicompost' ? 'Worm compost' : 'A pile that is neither turned nor aerated';
        return unknown(
          book,
          `${how} is none of the processes named: only a record that its own process is scientifically valid makes it treated. Until then treat it as untreated and keep it off the crop.`,
          { recordIds },
        );
      }
      const windrow = method === 'windrow';
      const needed = windrow ? p.windrowDays : p.staticDays;
      const turnings = windrow ? p.windrowTurnings : 0;
      const heat = heatOf(season, pile, { leastF: p.leastF, mostF: null, days: needed, turnings, inARow: !windrow });
      const asked = `${needed} days ${windrow ? '' : 'in a row '}at ${figureWords(p.leastF)} °F or more${windrow ? ` with ${countWords(turnings, 'turning')}` : ''}`;
      const evidence = {
        figures: [
          { name: 'daysAtTemperature', value: heat.bestDays, unit: 'd', limit: needed },
          ...(windrow ? [{ name: 'turnings', value: heat.turnings, limit: turnings }] : []),
        ],
        recordIds: heat.recordIds,
      };
      switch (heat.state) {
        case 'notReached':
          return broken(
            book,
            `The records show ${countWords(heat.bestDays, 'such day')}${windrow ? ` and ${countWords(heat.turnings, 'turning')}` : ''}; asked are ${asked}. It counts as untreated: keep it off the crop.`,
            evidence,
          );
        case 'running':
          return due(
            book,
            startOfDay(addDays(dayOf(season, pile.started.at.at), needed), season.timeZone),
            'measure the pile every day',
            `The pile is not finished; asked are ${asked}.`,
            evidence,
          );
        case 'missed':
          return unknown(
            book,
            `No temperature is recorded for ${heat.missedDays} of the days; asked are ${asked}.`,
            evidence,
          );
        case 'reached': {
          const finished = pile.finishes[0];
          return finished?.data.curedFrom === undefined
            ? unknown(book, `The records show ${asked}; from when the compost was cured is not recorded.`, evidence)
            : met(book, `The records show ${asked}, and curing after it.`, {
                ...evidence,
                recordIds: [...evidence.recordIds, finished.id],
              });
        }
      }
    },
  },
});

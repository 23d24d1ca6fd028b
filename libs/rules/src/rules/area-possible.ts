import { asOf, numberIn, polygonAreaM2, type Field } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { percent } from '../engine/parameter.ts';
import { groundRecords, lotRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { readingWords } from '../judging/reading.ts';
import { figureIn } from '../words/amounts.ts';
import { say } from '../words/index.ts';

/** A field's area in m² as it was then: as registered, else of its drawn boundary; null where neither is there. */
function areaOf(field: Field, at: number): { readonly m2: number; readonly drawn: boolean } | null {
  const { area, boundary } = asOf(field, at);
  if (area !== undefined) {
    const m2 = numberIn(area, 'm2');
    return m2 === null ? null : { m2, drawn: false };
  }
  if (boundary === undefined) return null;
  const rings = boundary.coordinates.map((ring) => ring.map(([lon = 0, lat = 0]) => [lon, lat] as const));
  return { m2: polygonAreaM2(rings), drawn: true };
}

/** Where an application says it went, and whether it can have. */
export const areaPossible = defineRule({
  id: 'area-possible',
  revision: 1,
  title: 'Ground known, and large enough',
  reason:
    'A rate is worked out from the area, so an area larger than the field makes the rate look smaller than it was. And a field that nobody registered cannot be found again at the harvest.',
  basis: 'practice',
  citation: 'common practice, no source; place and rate of what is applied: 7 USC 6519(a)(2), read 2026-11-25',
  severity: 'notice',
  packs: ['practice'],
  parameters: () =>
    z.object({
      drawnPercent: percent(2, 'Difference let stand where the area comes from a boundary drawn on the map.'),
    }),
  chosenAt: 'the start of the application',
  looksAt: {
    kinds: ['application', 'field', 'lot'],
    records: [...groundRecords, ...lotRecords, 'application.made'],
  },
  judge: {
    application(application, { limits, season }) {
      const book = limits(application.started.at);
      const recordIds = [application.record.id];
      const judgements = application.record.data.targets.map((target): Judgement => {
        if (target.lotId !== undefined) {
          const lot = season.lot(target.lotId);
          return lot === undefined
            ? unknown(book, say('area-possible.lotUnknown'), { recordIds })
            : notApplicable(book, say('area-possible.wetted', { code: lot.code }));
        }
        const field = target.fieldId === undefined ? undefined : season.field(target.fieldId);
        if (field === undefined) return unknown(book, say('area-possible.fieldUnknown'), { recordIds });
        const { code } = asOf(field, application.started.at);
        if (target.area === undefined) return notApplicable(book, say('area-possible.noArea', { code }));
        const applied = numberIn(target.area, 'm2');
        const known = areaOf(field, application.started.at);
        if (applied === null || known === null) {
          return unknown(book, say('area-possible.fieldArea', { code }), {
            recordIds: [...recordIds, ...field.recordIds],
          });
        }
        const whole = known.m2;
        const evidence = {
          figures: [{ name: 'areaM2', value: applied, unit: 'm2', limit: whole }],
          recordIds: [...recordIds, ...field.recordIds],
        };
        const unit = target.area.unit;
        const inUnit = numberIn({ value: whole, unit: 'm2' }, unit);
        const said = say('area-possible.said', {
          reading: readingWords(target.area),
          code,
          whole: readingWords({ value: Number(figureIn(inUnit ?? whole)), unit }),
        });
        // Two units of one area differ in the last digits; and a boundary drawn on a map is no survey.
        const slack = known.drawn ? book.parameters.drawnPercent / 100 : 1e-6;
        return applied > whole * (1 + slack) ? broken(book, said, evidence) : met(book, said, evidence);
      });
      return worst(judgements) ?? unknown(book, say('area-possible.nowhere'), { recordIds });
    },
  },
});

import { asOf, litres, type Decimal } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, met, notApplicable, unknown } from '../engine/judgement.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { timeOf } from '../judging/when.ts';
import { say, type Said } from '../words/index.ts';

/** The tank's running content against its working volume. */
export const fillLevel = defineRule({
  id: 'fill-level',
  revision: 1,
  title: 'Filled within the working volume',
  reason:
    'Foam and rolling tea need room under the lid. Filled above the working volume, part of the tea is lost over the rim, onto the ground and the cords.',
  basis: 'practice',
  citation: 'common practice, no source (fill about 6 in below the opening)',
  severity: 'notice',
  packs: ['practice'],
  parameters: () => z.object({}),
  chosenAt: 'the fill',
  looksAt: {
    kinds: ['batch', 'vessel'],
    records: [...tankRecords, 'vessel.registered', 'vessel.revised'],
  },
  judge: {
    batch(batch, { limits, now, season }) {
      const first = batch.fills[0];
      const book = limits(first?.finished.at ?? now);
      if (first === undefined) return notApplicable(book, say('common.noFill'));
      const vessel = batch.vesselId === null ? undefined : season.vessel(batch.vesselId);
      if (vessel === undefined)
        return unknown(book, say('fill-level.vesselUnknown'), {
          recordIds: [first.recordId],
        });
      const highest = batch.content.reduce<(typeof batch.content)[number] | null>(
        (top, each) => (top === null || each.litres.gt(top.litres) ? each : top),
        null,
      );
      if (highest === null || batch.fills.some((fill) => fill.litres === null)) {
        return unknown(book, say('fill-level.volumeUnknown'), {
          recordIds: batch.fills.map((fill) => fill.recordId),
        });
      }
      const { workingVolume } = asOf(vessel, highest.at.at);
      const working = litres(workingVolume);
      if (working === null)
        return unknown(book, say('fill-level.noVolume', { code: vessel.registered.code }), {
          recordIds: [first.recordId],
        });
      const asWritten = (value: Decimal): Said =>
        say('reading.figure', {
          value: value.div(working).times(workingVolume.value).toNumber(),
          unit: workingVolume.unit === '[gal_us]' ? 'gal' : workingVolume.unit,
        });
      const at = limits(highest.at.at);
      const evidence = {
        figures: [{ name: 'contentL', value: highest.litres.toNumber(), unit: 'L', limit: working.toNumber() }],
        recordIds: [highest.recordId],
        since: highest.at.at,
      };
      const said = say('fill-level.held', {
        code: vessel.registered.code,
        content: asWritten(highest.litres),
        at: timeOf(season, highest.at.at),
        working: asWritten(working),
      });
      // Litres come from exact factors; the comparison allows for what dividing them leaves in the last digits.
      return highest.litres.gt(working.times('1.000000000001')) ? broken(at, said, evidence) : met(at, said, evidence);
    },
  },
});

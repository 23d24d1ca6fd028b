import { z } from 'zod';
import { later } from '../later.ts';
import { batchId, deliveryId, instrumentId, lotId, sourceId, vesselId } from './ids.ts';
import { instant, label } from './members.ts';
import { concentration, stock, volume } from './quantitySchema.ts';

/** `volume` is what was added, not what stands in the tank. */
export const batchFilled = later(() =>
  z.strictObject({
    batchId,
    sourceId,
    volume: volume(),
    deliveryId: deliveryId.optional(),
    finishedAt: instant.optional(),
  }),
);
export const batchChlorineMeasured = later(() =>
  z
    .strictObject({
      batchId: batchId.optional(),
      /** Before a batch is in it. */
      vesselId: vesselId.optional(),
      free: concentration().optional(),
      total: concentration().optional(),
      method: label,
      instrumentId: instrumentId.optional(),
    })
    .check(({ value, issues }) => {
      const refuse = (member: string, message: string) =>
        issues.push({ code: 'custom', input: value, path: [member], message });
      if (value.batchId === undefined && value.vesselId === undefined)
        refuse('batchId', 'is missing: name the batch, or the vessel where it is not filled yet');
      if (value.free === undefined && value.total === undefined)
        refuse('free', 'is missing: write the free chlorine, the total chlorine, or both');
    }),
);
export const batchNeutralizerAdded = later(() => z.strictObject({ batchId, lotId, quantity: stock() }));

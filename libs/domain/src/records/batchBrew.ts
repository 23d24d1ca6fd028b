import { z } from 'zod';
import { later } from '../later.ts';
import { batchId, documentId, instrumentId, lotId, sampleId } from './ids.ts';
import { label, words, yesNoUnknown } from './members.ts';
import { concentration, conductivity, length, stock, temperature } from './quantitySchema.ts';
import { results } from './source.ts';

export const batchIngredientAdded = later(() => z.strictObject({ batchId, lotId, quantity: stock() }));
export const batchOxygenMeasured = later(() =>
  z.strictObject({
    batchId,
    dissolvedOxygen: concentration(),
    temperature: temperature().optional(),
    instrumentId: instrumentId.optional(),
    depth: length().optional(),
  }),
);
/** What eyes, nose and small meters say. */
export const batchChecked = later(() =>
  z.strictObject({
    batchId,
    airRunning: yesNoUnknown.optional(),
    surface: z.enum(['rolling', 'still']).optional(),
    odour: z.enum(['earthy', 'sweet', 'yeasty', 'sour', 'rotten', 'ammonia']).optional(),
    foam: z.enum(['none', 'some', 'over']).optional(),
    pH: z.number().min(0).max(14).optional(),
    conductivity: conductivity().optional(),
    temperature: temperature().optional(),
    note: words.optional(),
    documentIds: z.array(documentId).optional(),
  }),
);
export const batchSampled = later(() => z.strictObject({ batchId, sampleId, takenFrom: label }));
/** The batch may be left out: the sample names it. */
export const batchAnalysed = later(() =>
  z.strictObject({
    batchId: batchId.optional(),
    sampleId,
    laboratory: label,
    results: results(),
    documentId: documentId.optional(),
  }),
);

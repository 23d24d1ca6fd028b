import { z } from 'zod';
import { later } from '../later.ts';
import { deliveryId, documentId, sourceId } from './ids.ts';
import { changesOf, changesSomething, instant, label, period, retirement, untilAfterFrom, words } from './members.ts';
import { labResult, volume } from './quantitySchema.ts';

const members = later(() => ({
  code: label,
  kind: z.enum(['municipal', 'well', 'surface', 'rain', 'hauled']),
  disinfectant: z.enum(['none', 'chlorine', 'chloramine', 'unknown']),
  /** In the order in which the water passes them: filter, carbon, ultraviolet, … */
  treatment: z.array(label).optional(),
}));

/** Laboratory results. An empty list is a sample whose result is still pending. */
export const results = later(() => z.array(z.strictObject({ analyte: label, value: labResult() })));

export const sourceRegistered = later(() => z.strictObject({ sourceId, ...members() }));
export const sourceRevised = later(() =>
  z.strictObject({ sourceId, ...changesOf(members()) }).check(changesSomething(1)),
);
export const sourceRetired = later(() => retirement('sourceId', sourceId));
export const sourceTested = later(() =>
  z.strictObject({
    sourceId,
    sampledAt: instant,
    laboratory: words.optional(),
    method: words.optional(),
    results: results(),
    documentId: documentId.optional(),
  }),
);
export const sourceDocumented = later(() =>
  z
    .strictObject({
      sourceId,
      covers: z.enum(['utilityReport', 'treatment', 'assessment']),
      ...period,
      documentId: documentId.optional(),
    })
    .check(untilAfterFrom),
);
export const sourceDelivered = later(() =>
  z.strictObject({
    sourceId,
    deliveryId,
    hauler: words,
    previousCargo: words.optional(),
    volume: volume(),
    loadCode: words.optional(),
  }),
);

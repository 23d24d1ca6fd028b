import { z } from 'zod';
import { later } from '../later.ts';
import { applicationId, batchId, drawId, equipmentId, fieldId, lotId, personId, plantingId, sourceId } from './ids.ts';
import { parseInstant } from '../calendar/index.ts';
import { count, impossible, instant, label, words } from './members.ts';
import { area, stock, volume } from './quantitySchema.ts';

/** Ground, or a lot of compost that is wetted. */
const target = later(() =>
  z
    .strictObject({
      fieldId: fieldId.optional(),
      lotId: lotId.optional(),
      plantingId: plantingId.optional(),
      area: area().optional(),
      /** Plants, trays, pots. */
      count: count.optional(),
      volume: volume().optional(),
    })
    .check(({ value, issues }) => {
      if ((value.fieldId === undefined) === (value.lotId === undefined))
        issues.push({
          code: 'custom',
          input: value,
          path: ['fieldId'],
          message:
            value.fieldId === undefined
              ? 'is missing: name the field, or the lot of compost that was wetted'
              : 'and lotId stand side by side: write two targets, one for the field and one for the lot',
        });
    }),
);

/** A recorded draw, or one that is recorded only here. */
const load = later(() =>
  z.union([
    z.strictObject({ drawId }),
    z.strictObject({
      batchId,
      volume: volume(),
      /** Absent = drawn when the application started. */
      drawnAt: instant.optional(),
      keptAerated: z.boolean().optional(),
    }),
  ]),
);

export const applicationMade = later(() =>
  z
    .strictObject({
      applicationId,
      code: label.optional(),
      targets: z.array(target()),
      draws: z.array(load()),
      tankMix: z.array(z.strictObject({ lotId, quantity: stock() })).optional(),
      startedAt: instant,
      finishedAt: instant,
      method: z.enum(['soilDrench', 'foliar', 'irrigation', 'inFurrow', 'rootDip', 'seedSoak', 'compostWetting']),
      edibleParts: z.enum(['present', 'absent']).optional(),
      dilutionVolume: volume().optional(),
      dilutionSourceId: sourceId.optional(),
      equipmentId: equipmentId.optional(),
      applicator: personId,
      weather: words.optional(),
    })
    .check(({ value, issues }) => {
      if ((parseInstant(value.finishedAt) ?? 0) < (parseInstant(value.startedAt) ?? 0))
        issues.push(
          impossible(
            value.finishedAt,
            'finishedAt',
            `lies before the start at ${value.startedAt}: correct the wrong one of the two`,
          ),
        );
    }),
);

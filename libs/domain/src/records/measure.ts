import { z } from 'zod';
import { materialId, measureId } from './ids.ts';
import { changesOf, changesSomething, date, label, retirement } from './members.ts';
import { worth } from './quantitySchema.ts';

const members = {
  name: label,
  materialId: materialId.optional(),
  equals: worth,
  weighedOn: date,
};

/** A household measure (a bucket, a scoop, a mark on the tote) and what it is worth. */
export const measureRegistered = z.strictObject({ measureId, ...members });
export const measureRevised = z.strictObject({ measureId, ...changesOf(members) }).check(changesSomething(1));
export const measureRetired = retirement('measureId', measureId);

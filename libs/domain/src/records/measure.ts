import { z } from 'zod';
import { later } from '../later.ts';
import { materialId, measureId } from './ids.ts';
import { changesOf, changesSomething, date, label, retirement } from './members.ts';
import { worth } from './quantitySchema.ts';

const members = later(() => ({
  name: label,
  materialId: materialId.optional(),
  equals: worth(),
  weighedOn: date,
}));

/** A household measure (a bucket, a scoop, a mark on the tote) and what it is worth. */
export const measureRegistered = later(() => z.strictObject({ measureId, ...members() }));
export const measureRevised = later(() =>
  z.strictObject({ measureId, ...changesOf(members()) }).check(changesSomething(1)),
);
export const measureRetired = later(() => retirement('measureId', measureId));

import { z } from 'zod';
import { later } from '../later.ts';
import { lotId, vesselId } from './ids.ts';
import { changesOf, changesSomething, label, minutes, retirement, words } from './members.ts';
import { reading, volume } from './quantitySchema.ts';

const members = later(() => ({
  code: label,
  totalVolume: volume(),
  workingVolume: volume(),
  /** Lines on the wall and what stands in the tank when it is filled to them. */
  marks: z.array(z.strictObject({ name: label, volume: volume() })).optional(),
  previousContents: z.enum(['none', 'food', 'unknown', 'other']),
  ownership: words.optional(),
}));

/** How a vessel or piece of equipment was cleaned. */
export const cleaning = later(() => ({
  method: label,
  /** tank, lid, diffusers, airLine, bags, hoses, pump, nozzles, … */
  parts: z.array(label).optional(),
  /** The cleaner's lot. */
  lotId: lotId.optional(),
  strength: z.union([reading(), words]).optional(),
  contactMinutes: minutes.optional(),
  rinsed: z.boolean(),
  residual: z.union([reading(), words]).optional(),
}));

export const vesselRegistered = later(() => z.strictObject({ vesselId, ...members() }));
export const vesselRevised = later(() =>
  z.strictObject({ vesselId, ...changesOf(members()) }).check(changesSomething(1)),
);
export const vesselRetired = later(() => retirement('vesselId', vesselId));
export const vesselCleaned = later(() => z.strictObject({ vesselId, ...cleaning() }));

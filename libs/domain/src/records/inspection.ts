import { z } from 'zod';
import { later } from '../later.ts';
import { anyId, inspectionId } from './ids.ts';
import { label, minutes, words } from './members.ts';

export const inspectionHeld = later(() =>
  z.strictObject({
    inspectionId,
    by: words,
    scope: words,
    outcome: words.optional(),
    /** Trace-back and mass-balance exercises, and how long each took. */
    exercises: z.array(z.strictObject({ kind: label, about: anyId, minutes })).optional(),
  }),
);

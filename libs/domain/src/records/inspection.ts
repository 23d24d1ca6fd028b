import { z } from 'zod';
import { anyId, inspectionId } from './ids.ts';
import { label, minutes, words } from './members.ts';

export const inspectionHeld = z.strictObject({
  inspectionId,
  by: words,
  scope: words,
  outcome: words.optional(),
  /** Trace-back and mass-balance exercises, and how long each took. */
  exercises: z.array(z.strictObject({ kind: label, about: anyId, minutes })).optional(),
});

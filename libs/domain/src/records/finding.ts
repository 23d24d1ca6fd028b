import { z } from 'zod';
import { findingId } from './ids.ts';
import { label, words } from './members.ts';

export const findingAnswered = z.strictObject({
  findingId,
  cause: label,
  action: words,
  state: z.enum(['open', 'done', 'accepted']),
});

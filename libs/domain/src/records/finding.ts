import { z } from 'zod';
import { later } from '../later.ts';
import { findingId } from './ids.ts';
import { label, words } from './members.ts';

export const findingAnswered = later(() =>
  z.strictObject({
    findingId,
    cause: label,
    action: words,
    state: z.enum(['open', 'done', 'accepted']),
  }),
);

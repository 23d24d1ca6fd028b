import { z } from 'zod';
import { later } from '../later.ts';
import { anyId, documentId } from './ids.ts';
import { date, label, words } from './members.ts';

export const certifierWrote = later(() =>
  z.strictObject({
    reference: words,
    kind: z.enum(['ruling', 'request', 'noncompliance', 'condition']),
    text: label,
    dueOn: date.optional(),
    documentId: documentId.optional(),
  }),
);
export const certifierNotified = later(() => z.strictObject({ about: z.array(anyId), how: label }));

import { z } from 'zod';
import { later } from '../later.ts';
import { batchId, documentId, operationId } from './ids.ts';
import { label, words, yesNoUnknown } from './members.ts';
import { volume } from './quantitySchema.ts';

/** The other side of the gate: an operation or a business. */
const party = later(() => z.strictObject({ name: label, operationId: operationId.optional() }));

export const teaSupplied = later(() =>
  z.strictObject({
    batchId,
    volume: volume(),
    to: party(),
    /** A statement of what the tea is went with it. */
    statementGiven: yesNoUnknown,
    sold: yesNoUnknown,
  }),
);
export const teaReceived = later(() =>
  z.strictObject({
    batchId,
    code: label,
    volume: volume(),
    from: party(),
    documentId: documentId.optional(),
    /** The supplier's signed checkpoint, as text. */
    checkpoint: words.optional(),
  }),
);

import { z } from 'zod';
import { later } from '../later.ts';
import { documentId, lotId, materialId } from './ids.ts';
import { date, label, words } from './members.ts';
import { stock } from './quantitySchema.ts';

export const lotReceived = later(() =>
  z.strictObject({
    lotId,
    code: label,
    materialId,
    supplierLot: words,
    quantity: stock(),
    expiresOn: date.optional(),
    documentId: documentId.optional(),
    /** In stock already when the books were opened. */
    openingStock: z.boolean().optional(),
  }),
);
export const lotCounted = later(() => z.strictObject({ lotId, quantity: stock() }));
export const lotDisposed = later(() => z.strictObject({ lotId, quantity: stock(), reason: label }));
export const lotHeld = later(() => z.strictObject({ lotId, reason: label }));
export const lotReleased = later(() => z.strictObject({ lotId, reason: words.optional() }));
export const lotRecalled = later(() => z.strictObject({ lotId, reason: label }));

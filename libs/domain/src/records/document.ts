import { z } from 'zod';
import { later } from '../later.ts';
import { anyId, documentId } from './ids.ts';
import { count, label, sha256 } from './members.ts';

/** The document's bytes live beside the log; its digest and length are the evidence. */
export const documentAttached = later(() =>
  z.strictObject({
    documentId,
    title: label,
    mediaType: z.string().regex(/^[\w!#$&^.+-]+\/[\w!#$&^.+-]+(;.*)?$/, 'must be a media type such as application/pdf'),
    byteLength: count,
    sha256,
    about: z.array(anyId),
  }),
);

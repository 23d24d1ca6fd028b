import { z } from 'zod';

/** What checks records, made ready: the first schema of all is a large part of beginning the core. */
export const first = z.string().regex(/^$/);

import { z } from 'zod';

/** Where a page ends: opaque to whoever carries it to the next request. */
export function cursorTo(parts: readonly string[]): string {
  return Buffer.from(JSON.stringify(parts)).toString('base64url');
}

/** A cursor of so many parts, given out by {@link cursorTo}. */
export function cursor(parts: number) {
  return z.string().transform((text, context): string[] => {
    const read = z.array(z.string()).length(parts).safeParse(jsonOf(text));
    if (read.success) return read.data;
    context.addIssue({ code: 'custom', message: 'must be the "next" of the page before' });
    return z.NEVER;
  });
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(Buffer.from(text, 'base64url').toString('utf8'));
  } catch {
    return null;
  }
}

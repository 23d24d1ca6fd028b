import { z } from 'zod';
import { gs1Fault } from '../exchange/gs1.ts';
import type { Gs1Keys } from '../exchange/epcis/index.ts';

/** Checked digit by digit: a mistyped key would name somebody else's goods. */
const keyOf = (kind: 'gln' | 'gtin') =>
  z.string().check(({ value, issues }) => {
    const fault = gs1Fault(kind, value);
    if (fault !== null) issues.push({ code: 'custom', input: value, message: fault });
  });
const uuid = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/**
 * Keys that the operation has from GS1, if any: `gln` of its place, and `gtin` as `thing:GTIN`, several with commas, where
 * the thing is the id of a material (for its lots) or of a planting (for its harvests).
 */
export const gs1Parameters = {
  gln: keyOf('gln').optional(),
  gtin: z
    .string()
    .max(10_000)
    .transform((text, context) => {
      const pairs = text.split(',').map((each) => each.trim().split(':'));
      for (const [thing = '', gtin = '', more] of pairs) {
        const fault =
          !uuid.test(thing) || more !== undefined
            ? 'must be the id of a material or planting, a colon, and its GTIN'
            : gs1Fault('gtin', gtin);
        if (fault !== null) context.addIssue({ code: 'custom', message: `${gtin || thing}: ${fault}` });
      }
      return new Map(pairs.map(([thing = '', gtin = '']) => [thing, gtin]));
    })
    .optional(),
};

export const keysOf = ({
  gln,
  gtin,
}: {
  readonly gln?: string | undefined;
  readonly gtin?: ReadonlyMap<string, string> | undefined;
}): Gs1Keys => ({
  gln,
  gtins: gtin ?? new Map(),
});

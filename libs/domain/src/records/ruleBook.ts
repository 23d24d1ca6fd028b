import { z } from 'zod';
import { later } from '../later.ts';
import { personId } from './ids.ts';
import { instant, label } from './members.ts';

const scalar = later(() => z.union([z.number(), z.string(), z.boolean()]));

export const ruleBookAdopted = later(() =>
  z.strictObject({
    /** May lie ahead. */
    effectiveFrom: instant,
    /** What each entry names is overridden, the rest stays. */
    entries: z.array(
      z.strictObject({
        ruleId: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'must be the id of a rule, such as hold-maximum'),
        enabled: z.boolean().optional(),
        severity: z.enum(['notice', 'minor', 'major', 'critical']).optional(),
        parameters: z.record(z.string(), z.union([scalar(), z.array(scalar())])).optional(),
        inSystemPlan: z.boolean().optional(),
        /** The `reference` of the certifier's ruling (`certifier.wrote`) that asks for what this entry sets. */
        certifierReference: label.optional(),
      }),
    ),
    reason: label,
    approvedBy: personId,
  }),
);

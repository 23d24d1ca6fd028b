import { z } from 'zod';
import { later } from '../later.ts';
import { anyId, inspectionId } from './ids.ts';
import { count, date, instant, label, sha256, words } from './members.ts';

/** A reading link was made for somebody outside. The secret itself never enters a record. */
export const accessGranted = later(() =>
  z.strictObject({
    accessId: anyId,
    role: z.enum(['inspector', 'reviewer', 'recorder', 'manager']),
    /** What for: "annual inspection". Never a person's name. */
    purpose: words.optional(),
    inspectionId: inspectionId.optional(),
    /** The period that may be read. */
    from: date.optional(),
    until: date.optional(),
    expiresAt: instant.optional(),
  }),
);
export const accessWithdrawn = later(() => z.strictObject({ accessId: anyId, reason: words.optional() }));
export const accessUsed = later(() =>
  z.strictObject({
    accessId: anyId,
    /** What was read or taken away: opened, trace, packet, … */
    what: label,
    about: anyId.optional(),
  }),
);
/** The log is signed with another key from here on. Keys are C2SP verifier key lines. */
export const keyReplaced = later(() => z.strictObject({ previousKey: label, key: label, reason: label }));
/** The log was restored from a backup that is shorter than the newest checkpoint anyone holds. */
export const logRestored = later(() =>
  z.strictObject({
    size: count,
    /** Size and root of that newest checkpoint, where one was presented. */
    knownSize: count.optional(),
    knownRoot: words.optional(),
    previousKey: words.optional(),
    key: label,
    reason: words.optional(),
  }),
);
/** A whole-operation archive was taken over. */
export const importMade = later(() =>
  z.strictObject({
    size: count,
    root: label,
    previousKey: words.optional(),
    key: words.optional(),
    archiveSha256: sha256.optional(),
    reason: words.optional(),
  }),
);

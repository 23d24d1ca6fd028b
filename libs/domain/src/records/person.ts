import { z } from 'zod';
import { later } from '../later.ts';
import { documentId, personId } from './ids.ts';
import { changesOf, changesSomething, label, retirement, words } from './members.ts';

/**
 * What is known of a person by name. There is no member for e-mail or telephone: they never enter a record.
 */
export const openPersonal = later(() =>
  z.strictObject({
    name: label,
    initials: words.optional(),
    title: words.optional(),
    address: words.optional(),
  }),
);
/** What the log holds in its place: base64 of SHA-256 over a random salt and the value's canonical text. */
export const sealedPersonal = later(() =>
  z.strictObject({
    sealed: z.string().regex(/^[A-Za-z0-9+/]{43}=$/, 'must be a SHA-256 in base64'),
  }),
);

const members = later(() => ({
  personal: z.union([openPersonal(), sealedPersonal()]),
  /** BCP 47 tag of the language that the person reads. */
  language: z
    .string()
    .regex(/^[A-Za-z]{2,3}(-[A-Za-z0-9]{1,8})*$/, 'must be a language tag such as en or es')
    .optional(),
}));

export const personRegistered = later(() => z.strictObject({ personId, ...members() }));
export const personRevised = later(() =>
  z.strictObject({ personId, ...changesOf(members()) }).check(changesSomething(1)),
);
export const personRetired = later(() => retirement('personId', personId));
export const personTrained = later(() =>
  z.strictObject({ personId, topic: label, by: words, documentId: documentId.optional() }),
);
export const personErased = later(() => z.strictObject({ personId, reason: label }));

import { z } from 'zod';
import { later } from '../later.ts';
import { isZone } from '../calendar/index.ts';
import { changesOf, changesSomething, label, period, untilAfterFrom, words } from './members.ts';
import { elevation } from './quantitySchema.ts';

const certificate = later(() =>
  z.strictObject({ certifier: label, number: label, ...period, scope: words }).check(untilAfterFrom),
);

const members = later(() => ({
  name: label,
  timeZone: z.string().refine(isZone, 'must be a time zone of the IANA list, such as America/New_York'),
  elevation: elevation().optional(),
  address: words.optional(),
  certificate: certificate().optional(),
  /** Packs of rules that bind; absent = all built-in ones. */
  regimes: z.array(label).optional(),
  /** Status under produce safety rules: covered, qualified exempt, not covered. */
  farmStatus: words.optional(),
}));

export const operationDescribed = later(() => z.strictObject(members()));
export const operationRevised = later(() => z.strictObject(changesOf(members())).check(changesSomething(0)));

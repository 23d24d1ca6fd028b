import { z } from 'zod';
import { later } from '../later.ts';
import { equipmentId } from './ids.ts';
import { changesOf, changesSomething, count, label, retirement, words, yesNoUnknown } from './members.ts';
import { flow, length, speed } from './quantitySchema.ts';
import { cleaning } from './vessel.ts';

const members = later(() => ({
  code: label,
  kind: z.enum(['sprayer', 'injector', 'drench', 'spreader', 'blower', 'pump', 'filter', 'bag', 'hose', 'nurseTank']),
}));

export const equipmentRegistered = later(() => z.strictObject({ equipmentId, ...members() }));
export const equipmentRevised = later(() =>
  z.strictObject({ equipmentId, ...changesOf(members()) }).check(changesSomething(1)),
);
export const equipmentRetired = later(() => retirement('equipmentId', equipmentId));
export const equipmentCleaned = later(() => z.strictObject({ equipmentId, ...cleaning() }));
export const equipmentCalibrated = later(() =>
  z.strictObject({
    equipmentId,
    nozzles: count.optional(),
    /** Of one nozzle. */
    flow: flow().optional(),
    speed: speed().optional(),
    swath: length().optional(),
  }),
);
/** Use for something other than tea. */
export const equipmentUsed = later(() =>
  z.strictObject({
    equipmentId,
    what: label,
    where: words.optional(),
    prohibited: yesNoUnknown,
  }),
);

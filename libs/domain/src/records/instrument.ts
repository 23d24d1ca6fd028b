import { z } from 'zod';
import { later } from '../later.ts';
import { instrumentId } from './ids.ts';
import { changesOf, changesSomething, label, retirement } from './members.ts';
import { duration, reading } from './quantitySchema.ts';

const measurand = z.enum(['dissolvedOxygen', 'chlorine', 'pH', 'temperature', 'conductivity', 'volume', 'mass']);

const members = later(() => ({
  code: label,
  /** opticalProbe, membraneProbe, strip, dropKit, thermometer, scale, … */
  kind: label,
  measures: z.union([measurand, z.array(measurand).min(1, 'must name at least one thing that it measures')]),
  /** How long a calibration or check holds. */
  validFor: duration().optional(),
}));

export const instrumentRegistered = later(() => z.strictObject({ instrumentId, ...members() }));
export const instrumentRevised = later(() =>
  z.strictObject({ instrumentId, ...changesOf(members()) }).check(changesSomething(1)),
);
export const instrumentRetired = later(() => retirement('instrumentId', instrumentId));
export const instrumentCalibrated = later(() =>
  z.strictObject({
    instrumentId,
    standard: label,
    readingBefore: reading().optional(),
    readingAfter: reading().optional(),
  }),
);
export const instrumentChecked = later(() =>
  z.strictObject({ instrumentId, standard: label, reading: reading(), expected: reading() }),
);

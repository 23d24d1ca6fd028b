import { z } from 'zod';
import { later } from '../later.ts';
import { documentId, materialId } from './ids.ts';
import {
  changesOf,
  changesSomething,
  label,
  period,
  retirement,
  untilAfterFrom,
  words,
  yesNo,
  yesNoUnknown,
} from './members.ts';

export const materialKinds = [
  'compost',
  'vermicompost',
  'mineral',
  'extract',
  'biological',
  'nutrient',
  'antifoam',
  'neutralizer',
  'sanitizer',
  'other',
] as const;
export const approvers = ['certifier', 'reviewBody', 'operation'] as const;

const members = later(() => ({
  code: label,
  name: label,
  /** The name in the crew's other language. */
  otherName: words.optional(),
  supplier: words.optional(),
  kind: z.enum(materialKinds),
  animalOrigin: yesNoUnknown,
  microbialFood: yesNo,
  harmsTea: yesNo.optional(),
}));

const approval = later(() => ({
  materialId,
  by: z.enum(approvers),
  reference: words,
  ...period,
  restriction: words.optional(),
  documentId: documentId.optional(),
}));

export const materialRegistered = later(() => z.strictObject({ materialId, ...members() }));
export const materialRevised = later(() =>
  z.strictObject({ materialId, ...changesOf(members()) }).check(changesSomething(1)),
);
export const materialRetired = later(() => retirement('materialId', materialId));
export const materialApproved = later(() => z.strictObject(approval()).check(untilAfterFrom));
export const materialWithdrawn = later(() => z.strictObject(approval()).check(untilAfterFrom));
export const materialDocumented = later(() =>
  z
    .strictObject({
      materialId,
      covers: z.enum(['treatment', 'analysis', 'label']),
      ...period,
      documentId: documentId.optional(),
    })
    .check(untilAfterFrom),
);

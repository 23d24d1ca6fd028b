import { ingredient, look, note, oxygen } from './brew.ts';
import type { Form } from './form.ts';
import type { FormId } from './ids.ts';
import { apply, close, draw, dump, lost } from './leave.ts';
import { airOff, airOn, chlorine, fill, neutralizer } from './water.ts';

/** Every form, by its id. */
export const forms: Readonly<Record<FormId, Form>> = {
  ...{ fill, airOn, airOff, chlorine, neutralizer, ingredient, oxygen },
  ...{ look, draw, apply, lost, dump, close, note },
};

/** The form that a record of this type was (or could have been) entered with; null where there is none at the tank. */
export function formOfType(type: string): Form | null {
  return Object.values(forms).find((form) => form.type === type && form.id !== 'note') ?? null;
}

export { amountOf, dataOf, firstAnswers, quantityOf } from './form.ts';
export type { Answer, Answers } from './answer.ts';
export type { Data, Field, Form, FormContext, Option } from './form.ts';
export { formIds, isFormId, type FormId } from './ids.ts';

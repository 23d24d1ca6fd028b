import type { Batch, DataOf, Quantity } from '@furrowmark/domain';
import { householdMeasures, measureName, unitOfMeasure } from '../../quantity/measures.ts';
import { initialsOf } from '../../records/person.ts';
import type { FormContext, Option } from './form.ts';

/** Registered things as options, retired ones left out; the one used last in this tank first. */
export function things<T extends { readonly id: string; readonly retired?: { readonly at: number } | undefined }>(
  context: FormContext,
  all: readonly T[],
  code: (thing: T) => string,
): readonly Option[] {
  return all
    .filter(({ retired }) => retired === undefined || retired.at > context.now)
    .map((thing) => ({ value: thing.id, label: code(thing) }))
    .sort((a, b) => (a.label < b.label ? -1 : 1));
}

/** Household measures that are in use, by how they are chosen among the units: `green bucket`. */
export const measuresFor = (season: FormContext['season']): ReadonlyMap<string, string> =>
  new Map(
    householdMeasures(season)
      .filter(({ retired }) => retired === undefined)
      .map(({ id, registered }) => [unitOfMeasure(id), measureName(season, id) ?? registered.name]),
  );

export const blowers = (context: FormContext): readonly Option[] =>
  things(
    context,
    context.season.allEquipment().filter(({ registered }) => registered.kind === 'blower'),
    ({ registered }) => registered.code,
  );

/** Machines that carry or spread tea, and other tanks. */
export function carriers(context: FormContext): readonly Option[] {
  const kinds: readonly string[] = ['sprayer', 'injector', 'drench', 'spreader', 'nurseTank'];
  return [
    ...things(
      context,
      context.season.allEquipment().filter(({ registered }) => kinds.includes(registered.kind)),
      ({ registered }) => registered.code,
    ),
    ...things(
      context,
      context.season.vessels().filter(({ id }) => id !== context.batch.vesselId),
      ({ registered }) => registered.code,
    ),
  ];
}

export const instrumentsFor = (context: FormContext, what: 'dissolvedOxygen' | 'chlorine'): readonly Option[] =>
  things(
    context,
    context.season.instruments().filter(({ registered }) => [registered.measures].flat().includes(what)),
    ({ registered }) => registered.code,
  );

/** The instrument used last on this phone, else the only one there is. */
export function instrumentFirst(context: FormContext, what: 'dissolvedOxygen' | 'chlorine'): readonly string[] {
  const all = instrumentsFor(context, what);
  const last =
    all.find(({ value }) => value === context.settings.instruments[what]) ?? (all.length === 1 ? all[0] : undefined);
  return last === undefined ? [] : [last.value];
}

export function people(context: FormContext): readonly Option[] {
  return things(context, context.season.people(), (person) => initialsOf(context.engine, person)).filter(
    ({ label }) => label !== '',
  );
}

/** A fixed list of values with their words. */
export const values = (context: FormContext, names: readonly Value[]): readonly Option[] =>
  names.map((value) => ({ value, label: context.w[`v_${value}`] }));

type Value = keyof {
  [K in keyof FormContext['w'] as K extends `v_${infer V}` ? V : never]: true;
};

/** The batch opened in this tank before this one. Only that one is folded for it. */
export function before({ season, batch }: FormContext): Batch | undefined {
  const last = season
    .ofType('batch.opened')
    .findLast(({ data }) => data.vesselId === batch.vesselId && data.batchId !== batch.id);
  return last === undefined ? undefined : season.batch(last.data.batchId);
}

/** What is in the tank by the books, in the unit of its first fill. */
export function contentOf(context: FormContext): Quantity | null {
  const litres = context.batch.content.at(-1)?.litres;
  const unit = context.batch.fills[0]?.quantity.unit ?? 'L';
  if (litres === undefined) return null;
  const value = context.engine.domain.numberIn({ value: litres, unit: 'L' }, unit);
  return value === null || value < 0 ? null : { value: Number(value.toPrecision(3)), unit };
}

export const volumeUnits = ['[gal_us]', 'L', '[qt_us]'] as const;
export type Method = DataOf<'application.made'>['method'];

import type { CurrentRecord, DataOf, Instant, Quantity, Season } from '@furrowmark/domain';

type Registered = DataOf<'measure.registered'>;

/** A household measure: a bucket, a scoop, a mark on the tote. */
export interface HouseholdMeasure {
  readonly id: string;
  readonly registered: Registered;
  readonly revisions: readonly {
    readonly from: Instant;
    readonly changes: Partial<Registered>;
    readonly recordId: CurrentRecord['id'];
  }[];
  readonly recordIds: readonly string[];
  readonly rivals: readonly string[];
  readonly retired?: { readonly at: Instant; readonly reason: string };
}

const mark = 'measure:';

/** A measure's name now; undefined where nobody registered it. */
export function measureName(season: Pick<Season, 'ofType'>, measureId: string): string | undefined {
  const revised = season
    .ofType('measure.revised')
    .findLast(({ data }) => data.measureId === measureId && data.name !== undefined);
  const registered = season.ofType('measure.registered').findLast(({ data }) => data.measureId === measureId);
  return revised?.data.name ?? registered?.data.name;
}

/** How a household measure is chosen in a list of units; a quantity names it beside the unit `{measure}`. */
export const unitOfMeasure = (measureId: string): string => `${mark}${measureId}`;

/** A figure in what was chosen from a list of units: a UCUM code, or a household measure. */
export const quantityIn = (value: number, chosen: string): Quantity =>
  chosen.startsWith(mark)
    ? { value, unit: '{measure}', measureId: chosen.slice(mark.length) }
    : { value, unit: chosen };

/** What is chosen in a list of units for a quantity. */
export const chosenFor = ({ unit, measureId }: Quantity): string =>
  measureId === undefined ? unit : unitOfMeasure(measureId);

/** Every measure that is registered, with how it was revised and whether it went out of use. */
export function householdMeasures(season: Pick<Season, 'ofType'>): readonly HouseholdMeasure[] {
  const byId = Map.groupBy(season.ofType('measure.registered'), ({ data }) => data.measureId);
  return [...byId].flatMap(([id, registrations]): HouseholdMeasure[] => {
    const shown = registrations.at(-1);
    if (shown === undefined) return [];
    const revised = season.ofType('measure.revised').filter(({ data }) => data.measureId === id);
    const retired = season.ofType('measure.retired').findLast(({ data }) => data.measureId === id);
    return [
      {
        id,
        registered: shown.data,
        revisions: revised.map(({ at, data, id: recordId }) => ({ from: at.at, changes: data, recordId })),
        recordIds: [...registrations, ...revised].map((each) => each.id),
        rivals: registrations.slice(0, -1).map((each) => each.id),
        ...(retired === undefined ? {} : { retired: { at: retired.at.at, reason: retired.data.reason } }),
      },
    ];
  });
}

import {
  asOf,
  numberIn,
  polygonAreaM2,
  resolveMeasure,
  type Instant,
  type PlanFacts,
  type PlanLimits,
  type PlanRecipe,
  type PlanRequest,
  type PlanTarget,
  type PlanVessel,
  type Position,
  type Quantity,
  type Season,
} from '@furrowmark/domain';
import { ruleById, ruleBookOf } from '@furrowmark/rules';
import type { ProblemDetail } from '../http/index.ts';
import { stockAt } from './stock.ts';

/** Minutes to clean and to fill a tank, for want of a record: common practice, no source. */
const usual = { cleaningMinutes: 60, fillMinutes: 45 };

/** Everything that a plan depends on, looked up in the season; what is asked for and not known is told by its place. */
export function planFacts(season: Season, request: PlanRequest, now: Instant): PlanFacts | { errors: ProblemDetail[] } {
  const errors: ProblemDetail[] = [];
  const targets = request.targets.flatMap((target, i): PlanTarget[] => {
    if (!('fieldId' in target)) return [{ fieldId: null, code: 'the area', area: target.area, rate: target.rate }];
    const found = targetOf(season, target, now);
    if (typeof found !== 'string') return [found];
    errors.push({ pointer: `/targets/${i}/fieldId`, detail: found });
    return [];
  });
  const recipe = request.recipeId === undefined ? null : recipeOf(season, request.recipeId, request.spray.from);
  if (recipe === undefined) errors.push({ pointer: '/recipeId', detail: 'There is no recipe with this id.' });
  if (errors.length > 0) return { errors };
  return {
    spray: request.spray,
    timeZone: season.timeZone,
    now,
    targets,
    vessels: request.vessels.map((id) => vesselOf(season, id, now)),
    recipe: recipe ?? null,
    disinfectant: request.source?.disinfectant ?? disinfectantOf(season, now),
    limits: limitsAt(season, request.spray.from),
    sprayer: { tank: request.sprayer?.tank ?? null, perHour: request.sprayer?.perHour ?? null },
    ...usual,
    lots: stockAt(season, request.spray.from),
    measures: (id) => worthOf(season, id, now),
  };
}

function targetOf(
  season: Season,
  { fieldId, rate }: { readonly fieldId: string; readonly rate: Quantity },
  now: Instant,
): PlanTarget | string {
  const field = season.field(fieldId);
  if (field === undefined) return 'There is no field with this id.';
  const { code, area, boundary } = asOf(field, now);
  const size = area ?? (boundary === undefined ? null : { value: polygonAreaM2(ringsOf(boundary)), unit: 'm2' });
  return size === null
    ? `${code} has no area: record it, or give an area instead.`
    : { fieldId, code, area: size, rate };
}

/** What a household measure is worth, as last weighed. */
function worthOf(season: Season, measureId: string, now: Instant): { equals: Quantity } | undefined {
  const weighed = [...season.ofType('measure.registered'), ...season.ofType('measure.revised')].filter(
    ({ data, type, at }) => data.measureId === measureId && (type === 'measure.registered' || at.at <= now),
  );
  const equals = weighed.findLast(({ data }) => data.equals !== undefined)?.data.equals;
  return equals && { equals };
}

const ringsOf = ({
  coordinates,
}: {
  readonly coordinates: readonly (readonly (readonly number[])[])[];
}): Position[][] =>
  coordinates.map((ring) => ring.map(([longitude = 0, latitude = 0]): Position => [longitude, latitude]));

/** A volume written in a household measure, in the unit that the measure was weighed in; as written where it was not. */
function resolved(season: Season, volume: Quantity, now: Instant): Quantity {
  const worth = resolveMeasure(volume, (id) => worthOf(season, id, now));
  return worth === null ? volume : { value: worth.value.toNumber(), unit: worth.unit };
}

function vesselOf(season: Season, vesselId: string, now: Instant): PlanVessel {
  const vessel = season.vessel(vesselId);
  if (vessel === undefined) return { vesselId, code: vesselId.slice(0, 8), workingVolume: null, freeFrom: null };
  const { code, workingVolume } = asOf(vessel, now);
  return { vesselId, code, workingVolume: workingVolume && resolved(season, workingVolume, now), freeFrom: null };
}

function recipeOf(season: Season, recipeId: string, at: Instant): PlanRecipe | undefined {
  const data = season.recipe(recipeId, at)?.data;
  if (data === undefined) return undefined;
  const brewHours = data.brewFor === undefined ? null : numberIn(data.brewFor, 'h');
  return {
    code: data.code,
    basisVolume: resolved(season, data.basisVolume, at),
    ingredients: data.ingredients.map(({ materialId, amount }) => {
      const material = season.material(materialId);
      return { materialId, name: material === undefined ? materialId.slice(0, 8) : asOf(material, at).name, amount };
    }),
    brewHours,
  };
}

/** What the water is disinfected with where all known sources agree. */
function disinfectantOf(season: Season, now: Instant): PlanFacts['disinfectant'] {
  const all = new Set(season.sources().map((source) => asOf(source, now).disinfectant));
  const [only] = all;
  return all.size === 1 && only !== undefined ? only : 'unknown';
}

/** The limits that the rule book in force sets for a plan; hours and minutes. */
function limitsAt(season: Season, at: Instant): PlanLimits {
  const book = ruleBookOf(season);
  const limit = (ruleId: string, parameter: string): number => {
    const value = ruleById(ruleId)?.limitsIn(book, at).parameters[parameter];
    if (value === undefined) throw new Error(`the rule ${ruleId} has no parameter ${parameter}`);
    return value;
  };
  return {
    preAerationMinutes: limit('chlorine-dissipated', 'advisedMinutes'),
    brewHours: limit('brew-minimum', 'advisedHours'),
    brewLeastHours: limit('brew-minimum', 'limitHours'),
    brewMostHours: limit('brew-maximum', 'withFoodLimitHours'),
    holdAdvisedHours: limit('hold-maximum', 'advisedHours'),
    holdMostHours: limit('hold-maximum', 'limitHours'),
  };
}

import type { Batch, CurrentRecord, Season } from '@furrowmark/domain';
import { boundsOf, surelyAbove } from './reading.ts';
import { materialAt } from './lot-uses.ts';
import { reachOf } from './reach.ts';

export interface TeaTest {
  readonly batch: Batch;
  readonly record: CurrentRecord<'batch.analysed'>;
  readonly at: number;
  /** `open`: a value is missing or its range holds the limit. */
  readonly verdict: 'good' | 'bad' | 'open';
}

/** Additives in a batch: nutrients that grow microbes, compost aside. */
export function additivesIn(season: Season, batch: Batch): readonly string[] {
  const names = batch.ingredients.flatMap((ingredient) => {
    const lot = season.lot(ingredient.lotId);
    const material = lot === undefined ? null : materialAt(season, lot, ingredient.at.at);
    if (ingredient.kind !== 'ingredient' || material === null) return [];
    const compost = material.kind === 'compost' || material.kind === 'vermicompost';
    return !compost && (material.kind === 'nutrient' || material.microbialFood === 'yes') ? [material.name] : [];
  });
  return [...new Set(names)];
}

/** A count in 100 mL; a bare number is read as given in 100 mL. */
const perHundred = (value: number, unit: string): number | null => {
  const parts = /^(?:1|\{[^}]*\})(?:\/(?:\(?(\d+)?\.?(mL|dL|L)\)?))?$/.exec(unit);
  if (parts === null) return null;
  if (parts[2] === undefined) return value;
  const mL = Number(parts[1] ?? 1) * (parts[2] === 'mL' ? 1 : parts[2] === 'dL' ? 100 : 1000);
  return (value * 100) / mL;
};

function verdictOf(
  record: CurrentRecord<'batch.analysed'>,
  limits: { readonly coli: number; readonly enterococci: number },
): TeaTest['verdict'] {
  const found = (pattern: RegExp, limit: number): TeaTest['verdict'] => {
    const results = record.data.results.filter(({ analyte }) => pattern.test(analyte.trim()));
    const verdicts = results.map(({ value }): TeaTest['verdict'] => {
      const bounds = boundsOf(value, perHundred);
      if (bounds === null) return 'open';
      return surelyAbove(bounds, limit) ? 'bad' : bounds.most <= limit ? 'good' : 'open';
    });
    return verdicts.includes('bad') ? 'bad' : verdicts.includes('open') || verdicts.length === 0 ? 'open' : 'good';
  };
  const both = [
    found(/^(generic\s+)?e(\.|scherichia)?\s*coli$/i, limits.coli),
    found(/^enterococc/i, limits.enterococci),
  ];
  return both.includes('bad') ? 'bad' : both.includes('open') ? 'open' : 'good';
}

/** The last change of the system before a moment: the tank as revised, a new edition of the recipe. */
function changedAt(season: Season, batch: Batch, at: number): number {
  const vessel = batch.vesselId === null ? undefined : season.vessel(batch.vesselId);
  const revised = (vessel?.revisions ?? []).filter(({ from }) => from <= at).map(({ from }) => from);
  const recipe = batch.recipeId === null ? undefined : season.recipe(batch.recipeId, at);
  const edition = recipe !== undefined && recipe.data.edition > 1 && recipe.at.at <= at ? [recipe.at.at] : [];
  return Math.max(-Infinity, ...revised, ...edition);
}

/**
 * Tests of tea from the same system (tank and recipe) since its last change and up to a moment, in order. The batch's
 * own analyses count whenever they came in.
 */
export function testsOfSystem(
  season: Season,
  batch: Batch,
  at: number,
  limits: { readonly coli: number; readonly enterococci: number },
): readonly TeaTest[] {
  if (batch.vesselId === null) return [];
  const since = changedAt(season, batch, at);
  return reachOf(season)
    .analysedIn(batch.vesselId)
    .filter((other) => other.recipeId === batch.recipeId && other.kind === batch.kind)
    .flatMap((other) =>
      other.samples.flatMap((sample): TeaTest[] => {
        if (sample.type !== 'batch.analysed' || sample.state === 'struck') return [];
        const brewed = other.brewStart?.at ?? sample.at.at;
        if (brewed < since || (other.id !== batch.id && sample.at.at > at)) return [];
        return [{ batch: other, record: sample, at: sample.at.at, verdict: verdictOf(sample, limits) }];
      }),
    )
    .sort((a, b) => a.at - b.at || (a.record.id < b.record.id ? -1 : 1));
}

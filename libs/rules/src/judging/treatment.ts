import type { Application, Batch, Ingredient, Lot } from '@furrowmark/domain';
import type { Bench } from '../engine/rule.ts';
import { compostProduce } from '../rules/compost-produce.ts';
import { sourceTested } from '../rules/source-tested.ts';
import { animalOriginOf, type AnimalOrigin } from './animal-origin.ts';
import { materialAt, materialName } from './lot-uses.ts';
import { waterOn } from './water-tests.ts';
import { coversDay, dayOf, sourceAt, sourceCode } from './water.ts';

/** `noAnimalOrigin`: the produce rule on animal materials does not reach it. */
export type TreatmentState = 'noAnimalOrigin' | 'treated' | 'untreated' | 'unknown';

export interface Treatment {
  readonly state: TreatmentState;
  /** Why, as parts of a sentence: "molasses was added to tea of manure compost". */
  readonly because: readonly string[];
  readonly recordIds: readonly string[];
}

interface Part {
  readonly name: string;
  readonly lot: Lot | null;
  readonly origin: AnimalOrigin;
  /** A nutrient added to grow microbes; null while its material is not known. */
  readonly additive: boolean | null;
  readonly at: number;
  readonly recordId: string;
}

const notTea: ReadonlySet<string> = new Set(['antifoam', 'neutralizer', 'sanitizer']);

function part({ season }: Bench, lotId: string, at: number, recordId: string): Part | null {
  const lot = season.lot(lotId);
  const material = lot === undefined ? null : materialAt(season, lot, at);
  if (lot === undefined || material === null) {
    return { name: 'a lot that is not recorded', lot: lot ?? null, origin: 'unknown', additive: null, at, recordId };
  }
  if (notTea.has(material.kind)) return null;
  const compost = material.kind === 'compost' || material.kind === 'vermicompost';
  return {
    name: materialName(season, lot),
    lot,
    origin: animalOriginOf(season, lot),
    additive: !compost && (material.kind === 'nutrient' || material.microbialFood === 'yes'),
    at,
    recordId,
  };
}

const ofBatch = (bench: Bench, ingredients: readonly Ingredient[]): Part[] =>
  ingredients
    .filter(({ kind }) => kind === 'ingredient')
    .map(({ lotId, at, recordId }) => part(bench, lotId, at.at, recordId))
    .filter((found) => found !== null);

/** Whether a material of animal origin was treated: own compost by its pile's records, bought by the supplier's paper. */
function treatedMaterial(
  bench: Bench,
  { lot, name, at }: Part,
): { readonly state: 'yes' | 'no' | 'unknown'; readonly why: string } {
  const { season } = bench;
  if (lot === null) return { state: 'unknown', why: `what ${name} holds is not known` };
  if (lot.origin.kind === 'pile') {
    const pile = season.pile(lot.origin.pileId);
    const verdict = pile === undefined ? 'unknown' : (compostProduce.judge('pile', pile, bench)?.outcome ?? 'unknown');
    if (verdict === 'met') return { state: 'yes', why: '' };
    if (verdict === 'broken')
      return { state: 'no', why: `the records of the pile of ${name} do not show the treatment` };
    return { state: 'unknown', why: `whether ${name} was treated is not on record` };
  }
  const material = season.material(lot.materialId);
  const day = dayOf(season, at);
  const paper = material?.documents.some(({ data }) => data.covers === 'treatment' && coversDay(data, day, 365));
  return paper === true
    ? { state: 'yes', why: '' }
    : { state: 'unknown', why: `no current record of the treatment of ${name} is there` };
}

function water(
  bench: Bench,
  batch: Batch,
): { readonly bad: string[]; readonly open: string[]; readonly recordIds: string[] } {
  const { season } = bench;
  const found = { bad: Array<string>(), open: Array<string>(), recordIds: Array<string>() };
  for (const fill of batch.fills) {
    const at = fill.finished.at;
    const code = sourceCode(season, fill.sourceId);
    const source = season.source(fill.sourceId);
    const then = sourceAt(season, fill.sourceId, at);
    found.recordIds.push(fill.recordId);
    if (source === undefined || then === null) {
      found.open.push('the source of its water is not recorded');
      continue;
    }
    if (then.kind === 'surface' && (then.treatment ?? []).length === 0) {
      found.bad.push(`its water is untreated surface water (${code})`);
    }
    const { validDays } = sourceTested.limitsIn(bench.book, at).parameters;
    const tested = waterOn(season, source, then.kind, at, validDays);
    if (tested.state === 'bad' || tested.state === 'reopened')
      found.bad.push(`E. coli was detected in its water (${code})`);
    else if (tested.state !== 'good' && tested.state !== 'report')
      found.open.push(`no current test of its water (${code}) is there`);
  }
  return found;
}

/** What the produce rule calls the tea: of a batch, or of a load with what was mixed into the sprayer. */
export function treatmentOf(bench: Bench, batch: Batch, application?: Application): Treatment {
  const mixed = (application?.record.data.tankMix ?? [])
    .map(({ lotId }) => part(bench, lotId, application?.started.at ?? 0, application?.record.id ?? ''))
    .filter((found) => found !== null);
  const parts = [...ofBatch(bench, batch.ingredients), ...mixed];
  const recordIds = parts.map(({ recordId }) => recordId);
  const animal = parts.filter(({ origin }) => origin === 'yes');
  const doubtful = parts.filter(({ origin }) => origin === 'unknown');
  const additives = parts.filter(({ additive }) => additive === true);
  if (batch.receivedTea !== null) {
    return {
      state: 'unknown',
      because: ['it was brewed elsewhere: ask for the statement of the brewer'],
      recordIds: [batch.receivedTea.id],
    };
  }
  if (animal.length === 0) {
    if (doubtful.length === 0) return { state: 'noAnimalOrigin', because: [], recordIds };
    return { state: 'unknown', because: [`whether ${names(doubtful)} is of animal origin is not known`], recordIds };
  }
  if (additives.length > 0) {
    return { state: 'untreated', because: [`${names([...additives, ...animal])}`], recordIds };
  }
  const materials = animal.map((each) => treatedMaterial(bench, each));
  const fromWater = water(bench, batch);
  const bad = [...materials.filter(({ state }) => state === 'no').map(({ why }) => why), ...fromWater.bad];
  const all = [...recordIds, ...fromWater.recordIds];
  if (bad.length > 0) return { state: 'untreated', because: unique(bad), recordIds: all };
  const open = [
    ...materials.filter(({ state }) => state === 'unknown').map(({ why }) => why),
    ...fromWater.open,
    ...(doubtful.length > 0 ? [`whether ${names(doubtful)} is of animal origin is not known`] : []),
    ...(parts.some(({ additive }) => additive === null) ? ['whether a nutrient was added is not known'] : []),
  ];
  return open.length > 0
    ? { state: 'unknown', because: unique(open), recordIds: all }
    : { state: 'treated', because: [], recordIds: all };
}

const unique = (texts: readonly string[]): string[] => [...new Set(texts)];

/** "molasses and manure compost". */
function names(parts: readonly Part[]): string {
  const all = unique(parts.map(({ name }) => name));
  const last = all.at(-1) ?? '';
  return all.length < 2 ? last : `${all.slice(0, -1).join(', ')} and ${last}`;
}

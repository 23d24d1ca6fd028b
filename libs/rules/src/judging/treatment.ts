import type { Application, Batch, Ingredient, Lot } from '@furrowmark/domain';
import { verdictAsked } from '../engine/judgement.ts';
import type { Bench } from '../engine/rule.ts';
import { compostProduce } from '../rules/compost-produce.ts';
import { sourceTested } from '../rules/source-tested.ts';
import { animalOriginOf, type AnimalOrigin } from './animal-origin.ts';
import { materialAt, materialName } from './lot-uses.ts';
import { waterOn } from './water-tests.ts';
import { coversDay, dayOf, sourceAt, sourceCode } from './water.ts';
import { once, say, type Said } from '../words/index.ts';

/** `noAnimalOrigin`: the produce rule on animal materials does not reach it. */
export type TreatmentState = 'noAnimalOrigin' | 'treated' | 'untreated' | 'unknown';

export interface Treatment {
  readonly state: TreatmentState;
  /** Why, as parts of a sentence: "molasses was added to tea of manure compost". */
  readonly because: readonly Said[];
  readonly recordIds: readonly string[];
}

interface Part {
  readonly name: string | Said;
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
    return { name: say('treatment.aLot'), lot: lot ?? null, origin: 'unknown', additive: null, at, recordId };
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
): { readonly state: 'yes' | 'no' | 'unknown'; readonly why: Said } {
  const { season } = bench;
  if (lot === null) return { state: 'unknown', why: say('treatment.holdsUnknown', { name }) };
  if (lot.origin.kind === 'pile') {
    const pile = season.pile(lot.origin.pileId);
    const verdict = pile === undefined ? 'unknown' : verdictAsked(compostProduce.judge('pile', pile, bench));
    if (verdict === 'met') return { state: 'yes', why: say('common.nothing') };
    if (verdict === 'broken') return { state: 'no', why: say('treatment.pileNot', { name }) };
    return { state: 'unknown', why: say('treatment.pileOpen', { name }) };
  }
  const material = season.material(lot.materialId);
  const day = dayOf(season, at);
  const paper = material?.documents.some(({ data }) => data.covers === 'treatment' && coversDay(data, day, 365));
  return paper === true
    ? { state: 'yes', why: say('common.nothing') }
    : { state: 'unknown', why: say('treatment.noPaper', { name }) };
}

function water(
  bench: Bench,
  batch: Batch,
): { readonly bad: Said[]; readonly open: Said[]; readonly recordIds: string[] } {
  const { season } = bench;
  const found = { bad: Array<Said>(), open: Array<Said>(), recordIds: Array<string>() };
  for (const fill of batch.fills) {
    const at = fill.finished.at;
    const code = sourceCode(season, fill.sourceId);
    const source = season.source(fill.sourceId);
    const then = sourceAt(season, fill.sourceId, at);
    found.recordIds.push(fill.recordId);
    if (source === undefined || then === null) {
      found.open.push(say('treatment.sourceUnknown'));
      continue;
    }
    if (then.kind === 'surface' && (then.treatment ?? []).length === 0) {
      found.bad.push(say('treatment.surface', { code }));
    }
    const { validDays } = sourceTested.askedIn(bench.book, at).parameters;
    const tested = waterOn(season, source, then.kind, at, validDays);
    if (tested.state === 'bad' || tested.state === 'reopened') found.bad.push(say('treatment.coli', { code }));
    else if (tested.state !== 'good' && tested.state !== 'report') found.open.push(say('treatment.noTest', { code }));
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
      because: [say('treatment.elsewhere')],
      recordIds: [batch.receivedTea.id],
    };
  }
  if (animal.length === 0) {
    if (doubtful.length === 0) return { state: 'noAnimalOrigin', because: [], recordIds };
    return { state: 'unknown', because: [say('origin.unknownOf', { names: names(doubtful) })], recordIds };
  }
  if (additives.length > 0) {
    return {
      state: 'untreated',
      because: [say('treatment.names', { names: names([...additives, ...animal]) })],
      recordIds,
    };
  }
  const materials = animal.map((each) => treatedMaterial(bench, each));
  const fromWater = water(bench, batch);
  const bad = [...materials.filter(({ state }) => state === 'no').map(({ why }) => why), ...fromWater.bad];
  const all = [...recordIds, ...fromWater.recordIds];
  if (bad.length > 0) return { state: 'untreated', because: once(bad), recordIds: all };
  const open = [
    ...materials.filter(({ state }) => state === 'unknown').map(({ why }) => why),
    ...fromWater.open,
    ...(doubtful.length > 0 ? [say('origin.unknownOf', { names: names(doubtful) })] : []),
    ...(parts.some(({ additive }) => additive === null) ? [say('treatment.nutrient')] : []),
  ];
  return open.length > 0
    ? { state: 'unknown', because: once(open), recordIds: all }
    : { state: 'treated', because: [], recordIds: all };
}

const names = (parts: readonly Part[]): (string | Said)[] => once(parts.map(({ name }) => name));

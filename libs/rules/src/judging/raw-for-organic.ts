import type { Application, Batch, Lot } from '@furrowmark/domain';
import { verdictAsked } from '../engine/judgement.ts';
import type { Bench } from '../engine/rule.ts';
import { additiveTests, systemProven } from '../rules/additive-tested.ts';
import { compostOrganic } from '../rules/compost-organic.ts';
import { approvalsInForce } from './approvals.ts';
import { animalOriginOf } from './animal-origin.ts';
import { materialAt, materialName } from './lot-uses.ts';
import { additivesIn } from './tea-tests.ts';
import { coversDay, dayOf } from './water.ts';
import { say, type Said } from '../words/index.ts';

/**
 * How the organic side looks at a tea: `raw` = holds animal material that is not composted as the regulation asks;
 * `additive` = advisory, holds additives and the system is not proven by tests; `none` = no waiting time.
 */
export interface Waiting {
  readonly kind: 'raw' | 'additive' | 'unknown' | 'none';
  readonly why: Said;
}

const nothing: Waiting = { kind: 'none', why: say('common.nothing') };

/** The days are the same for all: an additive is sure to ask for them, whatever else is open. */
const rank = { raw: 3, additive: 2, unknown: 1, none: 0 } as const;

function ofLot(bench: Bench, lot: Lot, at: number): Waiting {
  const { season } = bench;
  const material = materialAt(season, lot, at);
  const name = materialName(season, lot);
  const origin = animalOriginOf(season, lot);
  if (origin === 'no' || material === null) {
    return material === null ? { kind: 'unknown', why: say('raw.lotUnknown') } : nothing;
  }
  if (origin === 'unknown') return { kind: 'unknown', why: say('origin.unknown', { name }) };
  if (lot.origin.kind === 'pile') {
    const pile = season.pile(lot.origin.pileId);
    const verdict = pile === undefined ? 'unknown' : verdictAsked(compostOrganic.judge('pile', pile, bench));
    if (verdict === 'met' || verdict === 'caution') return nothing;
    return verdict === 'broken'
      ? { kind: 'raw', why: say('raw.manure', { name }) }
      : { kind: 'unknown', why: say('raw.notComposted', { name }) };
  }
  // Fish, blood and the like are processed goods, not manure; compost and unspecified matter is asked for its papers.
  if (material.kind !== 'compost' && material.kind !== 'vermicompost' && material.kind !== 'other') return nothing;
  const day = dayOf(season, at);
  const known = season.material(lot.materialId);
  const paper = known?.documents.some(({ data }) => data.covers === 'treatment' && coversDay(data, day, 365)) === true;
  const approved = known !== undefined && approvalsInForce(known, day).some(({ data }) => data.by !== 'operation');
  return paper || approved ? nothing : { kind: 'unknown', why: say('raw.noPaper', { name }) };
}

function ofNamed(bench: Bench, lotId: string, at: number): Waiting {
  const lot = bench.season.lot(lotId);
  return lot === undefined ? { kind: 'unknown', why: say('raw.lotUnknown') } : ofLot(bench, lot, at);
}

function ofBatch(bench: Bench, batch: Batch): Waiting {
  const { season } = bench;
  const lots = batch.ingredients
    .filter(({ kind }) => kind === 'ingredient')
    .map(({ lotId, at }) => ofNamed(bench, lotId, at.at));
  const additives = additivesIn(season, batch);
  const proven = additives.length === 0 || systemProven(additiveTests(bench, batch), 2);
  const additive: Waiting = proven
    ? nothing
    : { kind: 'additive', why: say('raw.additive', { additives: additives.join(', ') }) };
  return [...lots, additive].reduce(heavier, nothing);
}

function heavier(a: Waiting, b: Waiting): Waiting {
  const [most, least] = rank[b.kind] > rank[a.kind] ? [b, a] : [a, b];
  return most.kind === 'additive' && least.kind === 'unknown'
    ? { kind: 'additive', why: say('raw.both', { why: most.why, also: least.why }) }
    : most;
}

/** Of everything in a sprayer, what was mixed in too, the heaviest counts. */
export function waitingOf(bench: Bench, application: Application): Waiting {
  const teas = application.loads.map(({ batchId }): Waiting => {
    const batch = batchId === null ? undefined : bench.season.batch(batchId);
    return batch === undefined ? { kind: 'unknown', why: say('raw.batchUnknown') } : ofBatch(bench, batch);
  });
  const mixed = (application.record.data.tankMix ?? []).map(({ lotId }) =>
    ofNamed(bench, lotId, application.started.at),
  );
  return [...teas, ...mixed].reduce(heavier, nothing);
}

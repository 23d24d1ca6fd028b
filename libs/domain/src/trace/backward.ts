import type { Application, Harvest, Planting } from '../facts/types.ts';
import { nothing } from '../fold/exact.ts';
import type { OpenSeason } from '../fold/season.ts';
import type { Decimal } from '../quantity/decimal.ts';
import { Ancestry } from './ancestry.ts';
import { TraceBuilder } from './build.ts';
import { appliedLitres, outOfDraw } from './edges.ts';
import { Flow } from './flow.ts';
import type { Arrival } from './flowLog.ts';
import { harvestReached, plantingsReached, transplantSteps } from './reach.ts';
import type { Trace, TraceRef, TraceRoot } from './types.ts';

type Target = Application['targets'][number];

/** An application's target that leads to the root. */
interface Way {
  readonly application: Application;
  readonly target: Target;
  /** What was planted there that leads to a planting or a harvest. */
  readonly plantings: readonly string[];
}

/** What may be in a harvest, on a field or planting, in a batch or a lot: every step back, and how much of each lot. */
export function backwardFrom(season: OpenSeason, root: TraceRoot): Trace {
  const built = new TraceBuilder(season, root);
  const ancestry = new Ancestry(season, built);
  const ways = waysTo(season, built, root);
  for (const { application } of ways) ancestry.application(application);
  if (root.kind === 'batch') {
    const batch = season.batch(root.id);
    if (batch !== undefined) ancestry.batch(batch);
  }
  if (root.kind === 'lot') ancestry.lot(root.id, Infinity);

  const flow = new Flow(season, { lots: ancestry.lots });
  const arrived = arrivedAt(season, flow, root, ways);
  for (const lotId of ancestry.lots) {
    if (lotId === root.id) continue;
    const lot = season.lot(lotId);
    const received = lot && season.amountOf(lotId, lot.quantity, lot.at);
    built.reach({ kind: 'lot', id: lotId }, arrived.get(lotId) ?? null, season.unitOfLot(lotId), received ?? null);
  }
  for (const batchId of ancestry.batches) {
    if (batchId === root.id) continue;
    const volume = season.batch(batchId)?.volume.filledL ?? null;
    built.reach({ kind: 'batch', id: batchId }, teaOf(season, batchId, ways), 'L', volume);
  }
  for (const { target, plantings } of ways) {
    if (target.fieldId !== undefined) built.reach({ kind: 'field', id: target.fieldId });
    for (const id of plantings) built.reach({ kind: 'planting', id });
  }
  for (const { id, why } of flow.log.gaps) if (built.has(id)) built.unresolved({ id, why });
  return built.finish({ direction: 'backward', ends: [] });
}

/** The applications' targets that reached a harvest, a field's ground, or a planting, with the steps between. */
function waysTo(season: OpenSeason, built: TraceBuilder, root: TraceRoot): Way[] {
  const ways: Way[] = [];
  const harvest = root.kind === 'harvest' ? season.harvest(root.id) : undefined;
  for (const application of season.applications()) {
    for (const target of application.targets) {
      const straight = root.kind === 'lot' && target.lotId === root.id;
      const plantings = straight ? [] : stepsTo(season, built, application, target, root, harvest);
      if (plantings !== null) ways.push({ application, target, plantings });
    }
  }
  return ways;
}

/** Adds the steps from a target to the root; the plantings there that lead to it, null where it was not reached. */
function stepsTo(
  season: OpenSeason,
  built: TraceBuilder,
  application: Application,
  target: Target,
  root: TraceRoot,
  harvest: Harvest | undefined,
): readonly string[] | null {
  const { fieldId } = target;
  if (fieldId === undefined) return null;
  const plantings = plantingsReached(season, application, target);
  const ontoGround = groundSteps(season, application, target);
  /** The steps through one planting, or past all of them. */
  const throughPlanting = (id: string): readonly string[] => {
    const line = lineOf(id, plantings);
    for (const edge of ontoGround) if (edge.to.kind === 'field' || line.has(edge.to.id)) built.edge(edge);
    for (const edge of transplantSteps(plantings)) if (line.has(edge.to.id)) built.edge(edge);
    return target.plantingIds.filter((each) => line.has(each));
  };
  if (harvest !== undefined) {
    const through = harvestReached(season, application, target, plantings, harvest);
    if (through === null) return null;
    const sprayed = throughPlanting(through.id);
    built.edge({ from: through, to: root, recordId: harvest.record.id });
    if (harvest.plantingId !== null) return sprayed;
    built.unresolved({ id: harvest.id, why: 'the harvest names no planting: whatever reached its ground counts' });
    return target.plantingIds;
  }
  if (root.kind === 'planting' && plantings.some((each) => each.id === root.id)) return throughPlanting(root.id);
  if (root.kind === 'field' && season.sameGround(root.id).has(fieldId)) {
    for (const edge of ontoGround) built.edge(edge);
    if (fieldId !== root.id && !isUnder(season, fieldId, root.id)) {
      built.unresolved({
        id: application.id,
        why: 'applied to the larger ground that this lies in: how much came here cannot be told, all of it is counted',
      });
    }
    return [];
  }
  return null;
}

/** A planting with those it was transplanted from, step by step, as far back as they were reached. */
function lineOf(id: string, reached: readonly Planting[]): ReadonlySet<string> {
  const line = new Set([id]);
  for (const each of line) {
    const from = reached.find((planting) => planting.id === each)?.started.data.fromPlantingId;
    if (from !== undefined) line.add(from);
  }
  return line;
}

/** The application's steps onto one target. */
function groundSteps(season: OpenSeason, application: Application, target: Target) {
  const found = application.loads.flatMap((load) => {
    const drawn = season.draw(load.drawSubjectId);
    return drawn === undefined ? [] : outOfDraw(season, drawn.batch, drawn.draw);
  });
  const from: TraceRef = { kind: 'application', id: application.id };
  const recordId = application.record.id;
  const bare = [
    ...(target.fieldId === undefined ? [] : [{ from, to: { kind: 'field', id: target.fieldId } as const, recordId }]),
    ...target.plantingIds.map((id) => ({ from, to: { kind: 'planting', id } as const, recordId })),
  ];
  const wanted = new Set<string>(bare.map((edge) => edge.to.id));
  // One load: its own volumes stand at the steps. Several loads, or a tank mix alone: the steps without.
  const own = found.filter((edge) => edge.from.id === application.id && wanted.has(edge.to.id));
  return application.loads.length === 1 && own.length > 0 ? own : bare;
}

function isUnder(season: OpenSeason, fieldId: string, over: string): boolean {
  const walked = new Set<string>();
  let id: string | undefined = fieldId;
  while (id !== undefined && !walked.has(id)) {
    if (id === over) return true;
    walked.add(id);
    id = season.field(id)?.registered.parentId;
  }
  return false;
}

/** How much of each followed lot came to the root, exact, in the lot's unit. */
function arrivedAt(
  season: OpenSeason,
  flow: Flow,
  root: TraceRoot,
  ways: readonly Way[],
): ReadonlyMap<string, Decimal> {
  const total = new Map<string, Decimal>();
  const isWay = ({ application, target }: Arrival) =>
    ways.some((way) => way.application.id === application.id && way.target === target);
  const parts =
    root.kind === 'batch' || root.kind === 'lot'
      ? flow.log.steps.filter(
          (step) => step.to.kind === root.kind && step.to.id === root.id && !isPutBack(season, step.from, root),
        )
      : flow.log.arrivals.filter(isWay);
  for (const { amounts } of parts) {
    for (const [lotId, amount] of amounts) total.set(lotId, amount.plus(total.get(lotId) ?? nothing));
  }
  return total;
}

/** A batch getting the rest of its own draw back gets nothing new. */
function isPutBack(season: OpenSeason, from: TraceRef, root: TraceRoot): boolean {
  return from.kind === 'draw' && root.kind === 'batch' && season.batchOfDraw(from.id) === root.id;
}

/** Litres of a batch's tea that went the ways straight from its own tank; null where none did or it cannot be told. */
function teaOf(season: OpenSeason, batchId: string, ways: readonly Way[]): Decimal | null {
  let total: Decimal | null = null;
  for (const { application, target } of ways) {
    for (const load of application.loads) {
      const found = load.batchId === batchId ? season.draw(load.drawSubjectId) : undefined;
      const litres = found === undefined ? null : appliedLitres(found.draw);
      if (found === undefined || litres === null) continue;
      total = litres
        .div(found.draw.applicationIds.length)
        .times(target.share)
        .plus(total ?? nothing);
    }
  }
  return total;
}

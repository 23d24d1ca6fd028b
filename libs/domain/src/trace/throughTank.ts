import type { Batch, Draw, Season } from '../facts/types.ts';
import type { DrawnTea, Parcels, TankHistory } from '../fold/tank.ts';
import type { Amounts } from './amounts.ts';
import type { FlowLog } from './flowLog.ts';
import type { TraceRef } from './types.ts';

type Held = (parcels: Parcels) => Amounts;
const none: Parcels = new Map();

/** Draws of the batch and what else left its tank, with what they held of the followed things. */
export function throughTank(
  season: Season,
  batch: Batch,
  tank: TankHistory,
  { held, heldByDraw }: { readonly held: Held; readonly heldByDraw: Held },
  log: FlowLog,
): void {
  const from: TraceRef = { kind: 'batch', id: batch.id };
  for (const draw of batch.draws) {
    const drawn = tank.draws.get(draw.id);
    const amounts = heldByDraw(drawn?.parcels ?? none);
    if (drawn === undefined || amounts.size === 0) continue;
    log.step(from, { kind: 'draw', id: draw.id }, drawn.recordId, amounts);
    outOfLoad(batch, draw, drawn, held, log);
  }
  for (const loss of batch.losses) {
    const part = held(tank.losses.get(loss.recordId)?.parcels ?? none);
    const record = season.record(loss.recordId);
    const why = record?.type === 'tea.supplied' ? `supplied to ${record.data.to.name}` : `${loss.kind} from the tank`;
    log.end(loss.kind, from, part, why, loss.recordId);
  }
  const why = batch.closed === null ? 'still in the tank' : 'left in the tank when the batch was closed';
  log.end('leftInTank', from, held(tank.left), why, batch.closed?.id);
}

/** What became of a load apart from its applications. */
function outOfLoad(batch: Batch, draw: Draw, drawn: DrawnTea, held: Held, log: FlowLog): void {
  const at: TraceRef = { kind: 'draw', id: draw.id };
  if (drawn.share === null) {
    log.gap(draw.id, 'what part of the tank this load was cannot be told: more was drawn than recorded as filled');
  }
  for (const ended of draw.ended) {
    const portion = drawn.ended.find((each) => each.recordId === ended.recordId);
    if (portion === undefined) continue;
    const part = held(portion.parcels);
    const into = ended.fate === 'putBack' ? batch.id : ended.fate === 'carriedOver' ? ended.intoBatchId : undefined;
    if (into !== undefined) log.step(at, { kind: 'batch', id: into }, ended.recordId, part);
    else if (ended.fate === 'dumped') log.end('dumped', at, part, 'dumped from the load', ended.recordId);
    else log.end('carriedOff', at, part, 'carried over, into which batch was not written', ended.recordId);
  }
  if (draw.applicationIds.length === 0) {
    log.end('leftInLoad', at, held(drawn.kept), 'drawn; no application of it is recorded');
  }
}

import type { OpenSeason } from '../fold/season.ts';
import { TraceBuilder } from './build.ts';
import { reachHarvest } from './forward.ts';
import type { Trace, TraceRef } from './types.ts';

/** What grew on a field or of a planting, what was harvested of it, and where that was shipped. */
export function groundForward(season: OpenSeason, root: TraceRef): Trace {
  const built = new TraceBuilder(season, root);
  if (root.kind === 'harvest') {
    const harvest = season.harvest(root.id);
    for (const shipment of harvest?.shipments ?? []) {
      const to: TraceRef = { kind: 'shipment', id: shipment.id };
      built.edge({ from: root, to, shipped: shipment.data.quantity, recordId: shipment.id });
      built.reach(to);
    }
  }
  const ground = root.kind === 'field' ? season.sameGround(root.id) : new Set<string>();
  const plantings = season.plantings().filter((each) => each.id === root.id || ground.has(each.started.data.fieldId));
  for (const planting of plantings) {
    if (planting.id === root.id) continue;
    const to: TraceRef = { kind: 'planting', id: planting.id };
    built.edge({ from: root, to, recordId: planting.started.id });
    built.reach(to);
  }
  for (const harvest of season.harvests()) {
    const planting = plantings.find((each) => each.id === harvest.plantingId);
    if (planting !== undefined) reachHarvest(season, built, { kind: 'planting', id: planting.id }, harvest.id);
    else if (ground.has(harvest.fieldId)) reachHarvest(season, built, root, harvest.id);
  }
  return built.finish({ direction: 'forward', ends: [] });
}

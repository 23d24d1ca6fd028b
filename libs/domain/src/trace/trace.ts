import type { OpenSeason } from '../fold/season.ts';
import { backwardFrom } from './backward.ts';
import { forwardFrom } from './forward.ts';
import { groundForward } from './groundForward.ts';
import { isNamed } from './names.ts';
import type { Trace, TraceRoot } from './types.ts';

/**
 * Traces a lot, batch, field, planting or harvest: forward to everywhere it went, backward to everything that may be in
 * it. Forward from a lot (or batch) every quantity is of that lot, in the unit it was received in (of the batch's tea, in
 * litres), and what reached ground + the ends + what is unresolved adds up to the whole. Backward each lot has its own
 * unit and loads their volumes. null where no record speaks of the root.
 */
export function trace(season: OpenSeason, root: TraceRoot, direction: 'forward' | 'backward'): Trace | null {
  if (!isNamed(season, root)) return null;
  const { kind, id } = root;
  if (direction === 'backward') return backwardFrom(season, root);
  return kind === 'lot' || kind === 'batch' ? forwardFrom(season, { kind, id }) : groundForward(season, root);
}

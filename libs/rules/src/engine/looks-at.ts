import type { RecordType } from '@furrowmark/domain';

/** Record types that belong together: what a fact is folded from. A rule names the groups that its facts need. */

/** What a lot is and what it is made of. */
export const lotRecords = [
  'lot.received',
  'pile.finished',
  'material.registered',
  'material.revised',
  'measure.registered',
  'measure.revised',
] as const satisfies readonly RecordType[];

/** A tank from its opening to its closing: water, air, additions, and everything that left it. */
export const tankRecords = [
  'batch.opened',
  'batch.filled',
  'batch.airStarted',
  'batch.airStopped',
  'batch.neutralizerAdded',
  'batch.ingredientAdded',
  'batch.drawn',
  'draw.ended',
  'application.made',
  'batch.lost',
  'batch.disposed',
  'tea.supplied',
  'tea.received',
  'batch.closed',
  ...lotRecords,
] as const satisfies readonly RecordType[];

/** Oxygen readings and checks, and the meters that there are. */
export const checkRecords = [
  'batch.oxygenMeasured',
  'batch.checked',
  'instrument.registered',
  'instrument.revised',
] as const satisfies readonly RecordType[];

/** A water source, its tests and papers. */
export const waterRecords = [
  'source.registered',
  'source.revised',
  'source.tested',
  'source.documented',
] as const satisfies readonly RecordType[];

/** A pile from its start to the lot that it becomes. */
export const pileRecords = [
  'pile.started',
  'pile.added',
  'pile.measured',
  'pile.turned',
  ...lotRecords,
] as const satisfies readonly RecordType[];

/** Ground, what stands on it, and what was cut. */
export const groundRecords = [
  'field.registered',
  'field.revised',
  'planting.started',
  'planting.ended',
  'harvest.made',
] as const satisfies readonly RecordType[];

/** Approvals and papers of materials. */
export const paperRecords = [
  'material.approved',
  'material.withdrawn',
  'material.documented',
] as const satisfies readonly RecordType[];

/** What tells whether a brewing system is proven. */
export const testRecords = [
  'batch.sampled',
  'batch.analysed',
  'recipe.published',
  'vessel.registered',
  'vessel.revised',
] as const satisfies readonly RecordType[];

import type { RecordType } from '@furrowmark/domain';

const words: Partial<Record<RecordType, string>> = {
  'batch.filled': 'fill',
  'batch.airStarted': 'air on',
  'batch.airStopped': 'air off',
  'batch.chlorineMeasured': 'chlorine reading',
  'batch.neutralizerAdded': 'neutralizer',
  'batch.ingredientAdded': 'ingredient',
  'batch.oxygenMeasured': 'oxygen reading',
  'batch.checked': 'check',
  'batch.sampled': 'sample',
  'batch.drawn': 'draw',
  'draw.ended': 'end of a draw',
  'batch.lost': 'loss',
  'batch.disposed': 'disposal',
  'tea.supplied': 'tea handed on',
  'tea.received': 'tea received',
  'application.made': 'application',
  'harvest.made': 'harvest',
  'harvest.shipped': 'shipment',
  'lot.received': 'lot received',
  'lot.counted': 'count',
  'lot.disposed': 'disposal of stock',
  'pile.started': 'start of the pile',
  'pile.added': 'addition to the pile',
  'pile.measured': 'pile temperature',
  'pile.turned': 'turning',
  'pile.finished': 'finishing of the pile',
};

/** What people call a record of this type; its type where they have no word. */
export const recordWords = (type: RecordType): string => words[type] ?? type;

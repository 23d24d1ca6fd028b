import type { z } from 'zod';
import { applicationMade } from './application.ts';
import { batchAirStarted, batchAirStopped, batchClosed, batchOpened, batchReviewed } from './batch.ts';
import { batchAnalysed, batchChecked, batchIngredientAdded, batchOxygenMeasured, batchSampled } from './batchBrew.ts';
import { batchDisposed, batchDrawn, batchLost, drawEnded } from './batchDraw.ts';
import { batchChlorineMeasured, batchFilled, batchNeutralizerAdded } from './batchWater.ts';
import { certifierNotified, certifierWrote } from './certifier.ts';
import { recordAmended, recordStruck } from './correction.ts';
import { documentAttached } from './document.ts';
import {
  equipmentCalibrated,
  equipmentCleaned,
  equipmentRegistered,
  equipmentRetired,
  equipmentRevised,
  equipmentUsed,
} from './equipment.ts';
import { fieldExposed, fieldRegistered, fieldRetired, fieldRevised } from './field.ts';
import { findingAnswered } from './finding.ts';
import { harvestMade, harvestShipped } from './harvest.ts';
import { inspectionHeld } from './inspection.ts';
import {
  instrumentCalibrated,
  instrumentChecked,
  instrumentRegistered,
  instrumentRetired,
  instrumentRevised,
} from './instrument.ts';
import { lotCounted, lotDisposed, lotHeld, lotRecalled, lotReceived, lotReleased } from './lot.ts';
import {
  materialApproved,
  materialDocumented,
  materialRegistered,
  materialRetired,
  materialRevised,
  materialWithdrawn,
} from './material.ts';
import { measureRegistered, measureRetired, measureRevised } from './measure.ts';
import { operationDescribed, operationRevised } from './operation.ts';
import { personErased, personRegistered, personRetired, personRevised, personTrained } from './person.ts';
import { pileAdded, pileFinished, pileMeasured, pileStarted, pileTurned } from './pile.ts';
import { plantingEnded, plantingStarted } from './planting.ts';
import { recipePublished, recipeRetired } from './recipe.ts';
import { ruleBookAdopted } from './ruleBook.ts';
import { accessGranted, accessUsed, accessWithdrawn, importMade, keyReplaced, logRestored } from './server.ts';
import {
  sourceDelivered,
  sourceDocumented,
  sourceRegistered,
  sourceRetired,
  sourceRevised,
  sourceTested,
} from './source.ts';
import { teaReceived, teaSupplied } from './tea.ts';
import { vesselCleaned, vesselRegistered, vesselRetired, vesselRevised } from './vessel.ts';

/** A version that phones may still send and logs hold for ever. */
export interface OlderVersion {
  readonly version: number;
  readonly schema: () => z.ZodType;
  /** To the next version: pure, and never inventing a value. */
  readonly upcast: (data: unknown) => unknown;
}

/** What the catalogue says about one record type. */
export interface TypeEntry {
  /** The newest version; what the schema describes. */
  readonly version: number;
  readonly schema: () => z.ZodType;
  /** Place among records of the same instant: the lower comes first. */
  readonly rank: number;
  /** Versions released before, oldest first, each with the step to the next. */
  readonly older?: readonly OlderVersion[];
  /** Written by the server only; refused from clients. */
  readonly server?: true;
  /** Never amended or struck, only followed. */
  readonly final?: true;
}

/**
 * Every record type, its newest version, its schema, and its rank among records of one instant: registrations, then
 * what a thing is from then on, the rule book, papers and stock, preparation, the batch from filling to disposal,
 * counts and closing, harvest, review and answers, retirement, the log's own facts, corrections last.
 */
export const catalogue = {
  'operation.described': { version: 1, schema: operationDescribed, rank: 0 },
  'operation.revised': { version: 1, schema: operationRevised, rank: 5 },
  'person.registered': { version: 1, schema: personRegistered, rank: 1 },
  'person.revised': { version: 1, schema: personRevised, rank: 5 },
  'person.retired': { version: 1, schema: personRetired, rank: 90 },
  'person.trained': { version: 1, schema: personTrained, rank: 20 },
  'person.erased': { version: 1, schema: personErased, rank: 94, final: true },
  'source.registered': { version: 1, schema: sourceRegistered, rank: 1 },
  'source.revised': { version: 1, schema: sourceRevised, rank: 5 },
  'source.retired': { version: 1, schema: sourceRetired, rank: 90 },
  'source.tested': { version: 1, schema: sourceTested, rank: 20 },
  'source.documented': { version: 1, schema: sourceDocumented, rank: 20 },
  'source.delivered': { version: 1, schema: sourceDelivered, rank: 21 },
  'vessel.registered': { version: 1, schema: vesselRegistered, rank: 1 },
  'vessel.revised': { version: 1, schema: vesselRevised, rank: 5 },
  'vessel.retired': { version: 1, schema: vesselRetired, rank: 90 },
  'vessel.cleaned': { version: 1, schema: vesselCleaned, rank: 33 },
  'equipment.registered': { version: 1, schema: equipmentRegistered, rank: 1 },
  'equipment.revised': { version: 1, schema: equipmentRevised, rank: 5 },
  'equipment.retired': { version: 1, schema: equipmentRetired, rank: 90 },
  'equipment.used': { version: 1, schema: equipmentUsed, rank: 32 },
  'equipment.cleaned': { version: 1, schema: equipmentCleaned, rank: 33 },
  'equipment.calibrated': { version: 1, schema: equipmentCalibrated, rank: 34 },
  'instrument.registered': { version: 1, schema: instrumentRegistered, rank: 1 },
  'instrument.revised': { version: 1, schema: instrumentRevised, rank: 5 },
  'instrument.retired': { version: 1, schema: instrumentRetired, rank: 90 },
  'instrument.calibrated': { version: 1, schema: instrumentCalibrated, rank: 34 },
  'instrument.checked': { version: 1, schema: instrumentChecked, rank: 35 },
  'measure.registered': { version: 1, schema: measureRegistered, rank: 1 },
  'measure.revised': { version: 1, schema: measureRevised, rank: 5 },
  'measure.retired': { version: 1, schema: measureRetired, rank: 90 },
  'material.registered': { version: 1, schema: materialRegistered, rank: 1 },
  'material.revised': { version: 1, schema: materialRevised, rank: 5 },
  'material.retired': { version: 1, schema: materialRetired, rank: 90 },
  'material.approved': { version: 1, schema: materialApproved, rank: 12 },
  'material.withdrawn': { version: 1, schema: materialWithdrawn, rank: 13 },
  'material.documented': { version: 1, schema: materialDocumented, rank: 12 },
  'lot.received': { version: 1, schema: lotReceived, rank: 23 },
  'lot.recalled': { version: 1, schema: lotRecalled, rank: 25 },
  'lot.held': { version: 1, schema: lotHeld, rank: 26 },
  'lot.released': { version: 1, schema: lotReleased, rank: 27 },
  'lot.disposed': { version: 1, schema: lotDisposed, rank: 68 },
  'lot.counted': { version: 1, schema: lotCounted, rank: 72 },
  'pile.started': { version: 1, schema: pileStarted, rank: 24 },
  'pile.added': { version: 1, schema: pileAdded, rank: 28 },
  'pile.measured': { version: 1, schema: pileMeasured, rank: 29 },
  'pile.turned': { version: 1, schema: pileTurned, rank: 30 },
  'pile.finished': { version: 1, schema: pileFinished, rank: 31 },
  'recipe.published': { version: 1, schema: recipePublished, rank: 2 },
  'recipe.retired': { version: 1, schema: recipeRetired, rank: 90 },
  'field.registered': { version: 1, schema: fieldRegistered, rank: 1 },
  'field.revised': { version: 1, schema: fieldRevised, rank: 5 },
  'field.retired': { version: 1, schema: fieldRetired, rank: 90 },
  'field.exposed': { version: 1, schema: fieldExposed, rank: 22 },
  'planting.started': { version: 1, schema: plantingStarted, rank: 3 },
  'planting.ended': { version: 1, schema: plantingEnded, rank: 77 },
  'ruleBook.adopted': { version: 1, schema: ruleBookAdopted, rank: 10, final: true },
  'batch.opened': { version: 1, schema: batchOpened, rank: 40 },
  'batch.airStarted': { version: 1, schema: batchAirStarted, rank: 42 },
  'batch.airStopped': { version: 1, schema: batchAirStopped, rank: 60 },
  'batch.closed': { version: 1, schema: batchClosed, rank: 70 },
  'batch.reviewed': { version: 1, schema: batchReviewed, rank: 80, final: true },
  'batch.filled': { version: 1, schema: batchFilled, rank: 41 },
  'batch.chlorineMeasured': { version: 1, schema: batchChlorineMeasured, rank: 43 },
  'batch.neutralizerAdded': { version: 1, schema: batchNeutralizerAdded, rank: 44 },
  'batch.ingredientAdded': { version: 1, schema: batchIngredientAdded, rank: 45 },
  'batch.oxygenMeasured': { version: 1, schema: batchOxygenMeasured, rank: 50 },
  'batch.checked': { version: 1, schema: batchChecked, rank: 50 },
  'batch.sampled': { version: 1, schema: batchSampled, rank: 51 },
  'batch.analysed': { version: 1, schema: batchAnalysed, rank: 52 },
  'batch.drawn': { version: 1, schema: batchDrawn, rank: 61 },
  'draw.ended': { version: 1, schema: drawEnded, rank: 64 },
  'batch.lost': { version: 1, schema: batchLost, rank: 66 },
  'batch.disposed': { version: 1, schema: batchDisposed, rank: 67 },
  'application.made': { version: 1, schema: applicationMade, rank: 63 },
  'tea.received': { version: 1, schema: teaReceived, rank: 40 },
  'tea.supplied': { version: 1, schema: teaSupplied, rank: 62 },
  'harvest.made': { version: 1, schema: harvestMade, rank: 75 },
  'harvest.shipped': { version: 1, schema: harvestShipped, rank: 76 },
  'document.attached': { version: 1, schema: documentAttached, rank: 11 },
  'finding.answered': { version: 1, schema: findingAnswered, rank: 82 },
  'certifier.wrote': { version: 1, schema: certifierWrote, rank: 83 },
  'certifier.notified': { version: 1, schema: certifierNotified, rank: 84 },
  'inspection.held': { version: 1, schema: inspectionHeld, rank: 85 },
  'record.amended': { version: 1, schema: recordAmended, rank: 98 },
  'record.struck': { version: 1, schema: recordStruck, rank: 99 },
  'access.granted': { version: 1, schema: accessGranted, rank: 86, server: true, final: true },
  'access.used': { version: 1, schema: accessUsed, rank: 87, server: true, final: true },
  'access.withdrawn': { version: 1, schema: accessWithdrawn, rank: 88, server: true, final: true },
  'key.replaced': { version: 1, schema: keyReplaced, rank: 95, server: true, final: true },
  'log.restored': { version: 1, schema: logRestored, rank: 95, server: true, final: true },
  'import.made': { version: 1, schema: importMade, rank: 95, server: true, final: true },
} as const satisfies Record<string, TypeEntry>;

export type RecordType = keyof typeof catalogue;

type DataByType = { [T in RecordType]: z.output<ReturnType<(typeof catalogue)[T]['schema']>> };
/** The payload of a record of type `T`, newest version. */
export type DataOf<T extends RecordType> = DataByType[T];

const entries: ReadonlyMap<string, TypeEntry> = new Map(Object.entries<TypeEntry>(catalogue));

export function isRecordType(type: string): type is RecordType {
  return entries.has(type);
}

/** The catalogue's line for a type name that came from outside; undefined where there is none. */
export function typeEntry(type: string): TypeEntry | undefined {
  return entries.get(type);
}

/** The schema of one version of a type; undefined where that version was never released. */
export function schemaOf(entry: TypeEntry, version: number): z.ZodType | undefined {
  if (version === entry.version) return entry.schema();
  return entry.older?.find((older) => older.version === version)?.schema();
}

/** Every type, in the catalogue's order. */
export const recordTypes: readonly string[] = [...entries.keys()];

/** The fixed rank that orders records of the same instant. */
export function rankOf(type: RecordType): number {
  return catalogue[type].rank;
}

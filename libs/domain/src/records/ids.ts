import { z } from 'zod';

/** A UUID as records write it: lower case, any version (clients write version 7). */
const uuid = z
  .string()
  .regex(/^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/, 'must be a UUID in lower case');

const id = <B extends string>(brand: B) => uuid.brand<B>(brand);

export const recordId = id('RecordId');
export const operationId = id('OperationId');
export const personId = id('PersonId');
export const sourceId = id('SourceId');
export const deliveryId = id('DeliveryId');
export const vesselId = id('VesselId');
export const equipmentId = id('EquipmentId');
export const instrumentId = id('InstrumentId');
export const measureId = id('MeasureId');
export const materialId = id('MaterialId');
export const lotId = id('LotId');
export const pileId = id('PileId');
export const recipeId = id('RecipeId');
export const fieldId = id('FieldId');
export const plantingId = id('PlantingId');
export const batchId = id('BatchId');
export const sampleId = id('SampleId');
export const drawId = id('DrawId');
export const applicationId = id('ApplicationId');
export const harvestId = id('HarvestId');
export const findingId = id('FindingId');
export const inspectionId = id('InspectionId');
export const documentId = id('DocumentId');
/** An id whose kind the record does not say (`about`, `into`). */
export const anyId = uuid;

export type RecordId = z.infer<typeof recordId>;
export type OperationId = z.infer<typeof operationId>;
export type PersonId = z.infer<typeof personId>;
export type SourceId = z.infer<typeof sourceId>;
export type DeliveryId = z.infer<typeof deliveryId>;
export type VesselId = z.infer<typeof vesselId>;
export type EquipmentId = z.infer<typeof equipmentId>;
export type InstrumentId = z.infer<typeof instrumentId>;
export type MeasureId = z.infer<typeof measureId>;
export type MaterialId = z.infer<typeof materialId>;
export type LotId = z.infer<typeof lotId>;
export type PileId = z.infer<typeof pileId>;
export type RecipeId = z.infer<typeof recipeId>;
export type FieldId = z.infer<typeof fieldId>;
export type PlantingId = z.infer<typeof plantingId>;
export type BatchId = z.infer<typeof batchId>;
export type SampleId = z.infer<typeof sampleId>;
export type DrawId = z.infer<typeof drawId>;
export type ApplicationId = z.infer<typeof applicationId>;
export type HarvestId = z.infer<typeof harvestId>;
export type FindingId = z.infer<typeof findingId>;
export type InspectionId = z.infer<typeof inspectionId>;
export type DocumentId = z.infer<typeof documentId>;

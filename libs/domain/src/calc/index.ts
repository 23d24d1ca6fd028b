export { isRefusal, type Calculation, type Refusal, type Worked } from './calculation.ts';
export { calculations, isCalculation, type CalculationName } from './registry.ts';
export { pressureAtElevation, saturationMgPerL, type SaturationAnswer } from './oxygenSaturation.ts';
export {
  oxygenUptakeOf,
  type OxygenPoint,
  type Uptake,
  type UptakeAnswer,
  type UptakeUndetermined,
} from './oxygenUptake.ts';
export { type DoseAnswer } from './neutralizerDose.ts';
export { gallonsPerAcre, sprayerLoads, type Loads, type OutputAnswer } from './sprayerOutput.ts';
export { logMoments, type WaterAnswer } from './waterStatistics.ts';
export { mixOf, type MixAnswer, type MixPart } from './compostMix.ts';
export { recordable, scaleFactor, type ScaledAnswer } from './scaleRecipe.ts';
export { polygonAreaM2, type AreaAnswer } from './fieldArea.ts';
export { type Position } from './ring.ts';
export { type ConvertAnswer } from './convertQuantity.ts';
export { pickLots, type Picking, type StockLot } from './pickLots.ts';
export { planBrews, type BrewPlan, type PlannedBatch } from './planBrews.ts';
export type { PlanFacts, PlanLimits, PlanRecipe, PlanTarget, PlanVessel } from './planFacts.ts';
export { planRequest, type PlanRequest } from './planRequest.ts';

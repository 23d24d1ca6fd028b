import type { Instant } from '../facts/time.ts';
import type { Decimal, Measures, Quantity } from '../quantity/index.ts';
import type { StockLot } from './pickLots.ts';

type Amount = { readonly value: number | Decimal; readonly unit: string };

/** Limits that a plan keeps, from the rule book in force; hours and minutes. */
export interface PlanLimits {
  readonly preAerationMinutes: number;
  /** Brew time when the recipe names none. */
  readonly brewHours: number;
  readonly brewLeastHours: number;
  readonly brewMostHours: number;
  /** From air off to the end of the application: what is advised, and the limit. */
  readonly holdAdvisedHours: number;
  readonly holdMostHours: number;
}

export interface PlanVessel {
  readonly vesselId: string;
  readonly code: string;
  /** null where it is not registered: the vessel cannot be planned. */
  readonly workingVolume: Amount | null;
  /** When it is empty and clean; null: now. */
  readonly freeFrom: Instant | null;
}

export interface PlanTarget {
  /** null for an area that is no registered field. */
  readonly fieldId: string | null;
  readonly code: string;
  readonly area: Amount;
  /** Tea (not spray mix) on the area. */
  readonly rate: Amount;
}

export interface PlanRecipe {
  readonly code: string;
  readonly basisVolume: Amount;
  readonly ingredients: readonly { readonly materialId: string; readonly name: string; readonly amount: Quantity }[];
  /** null: the brew time of the limits. */
  readonly brewHours: number | null;
}

/** Everything a plan depends on, resolved: no ids left to look up. */
export interface PlanFacts {
  readonly spray: { readonly from: Instant; readonly to: Instant };
  readonly timeZone: string;
  /** Nothing is planned to start before; null: no such bound. */
  readonly now: Instant | null;
  readonly targets: readonly PlanTarget[];
  readonly vessels: readonly PlanVessel[];
  readonly recipe: PlanRecipe | null;
  readonly disinfectant: 'none' | 'chlorine' | 'chloramine' | 'unknown';
  readonly limits: PlanLimits;
  readonly sprayer: {
    /** null where unknown: then loads cannot be counted. */
    readonly tank: Amount | null;
    /** Tea put out in an hour of work, filling and driving included; null where unknown. */
    readonly perHour: Amount | null;
  };
  /** Between the emptying of a vessel and its next fill. */
  readonly cleaningMinutes: number;
  readonly fillMinutes: number;
  readonly lots: readonly StockLot[];
  readonly measures: Measures;
}

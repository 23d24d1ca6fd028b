import type { Instant } from '@furrowmark/domain';
import type { Basis, Severity } from '../outcome.ts';

/** A rule as the book in force at one instant has it. */
export interface Limits<P> {
  readonly enabled: boolean;
  readonly severity: Severity;
  /** The rule's own basis, `certifier` where a ruling set the limits, or `ownPlan` where the system plan promises what would else be practice or guideline. */
  readonly basis: Basis;
  readonly inSystemPlan: boolean;
  /** The certifier's ruling behind the limits, by its reference; null = none. */
  readonly ruling: string | null;
  /** `seq` of the adoption that last named the rule; null = built-in defaults. */
  readonly seq: number | null;
  /** From when it holds; -Infinity for the built-in defaults. */
  readonly from: Instant;
  readonly parameters: P;
}
export type AnyLimits = Limits<Readonly<Record<string, number>>>;

/** The same limits on another footing: a rule that rests on a regulation in one case and on a guideline in another. */
export function resting<P>(limits: Limits<P>, basis: Exclude<Basis, 'ownPlan'>, severity?: Severity): Limits<P> {
  return {
    ...limits,
    basis:
      limits.ruling !== null ? 'certifier' : limits.basis === 'ownPlan' && basis !== 'regulation' ? 'ownPlan' : basis,
    // What the operation set itself stays as it set it.
    severity: severity === undefined || limits.seq !== null ? limits.severity : severity,
  };
}

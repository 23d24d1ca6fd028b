import type { Quantity } from '@furrowmark/domain';

/** Quantities as the farm writes them, in UCUM codes. */
export const gal = (value: number): Quantity => ({ value, unit: '[gal_us]' });
export const lb = (value: number): Quantity => ({ value, unit: '[lb_av]' });
export const grams = (value: number): Quantity => ({ value, unit: 'g' });
export const mgPerL = (value: number): Quantity => ({ value, unit: 'mg/L' });
export const degF = (value: number): Quantity => ({ value, unit: '[degF]' });
export const acres = (value: number): Quantity => ({ value, unit: '[acr_us]' });
export const cubicYards = (value: number): Quantity => ({ value, unit: '[cyd_i]' });
export const hours = (value: number): Quantity => ({ value, unit: 'h' });
export const cfu = (value: number): Quantity => ({ value, unit: '{CFU}/(100.mL)' });
/** None found: the laboratory's detection limit is 1 in 100 mL. */
export const noneDetected: Quantity = { ...cfu(1), qualifier: 'notDetected' };
/** A test strip read between two pads. */
export const betweenPads = (low: number, high: number): Quantity => ({ ...mgPerL(low), qualifier: 'between', high });

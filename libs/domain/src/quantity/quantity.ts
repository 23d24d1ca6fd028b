/**
 * A quantity as it was written down. `unit` is a UCUM code (case sensitive), or `{measure}` for a household
 * measure, whose worth the registered `measureId` tells. Never converted for storing, only for computing.
 */
export interface Quantity {
  readonly value: number;
  readonly unit: string;
  /** Set exactly when `unit` is `{measure}`. */
  readonly measureId?: string | undefined;
  /** Lab and meter values: below, above, not detected (value = detection limit), between value and `high`. */
  readonly qualifier?: '<' | '>' | 'notDetected' | 'between' | undefined;
  /** The upper end, exactly when `qualifier` is `between`. */
  readonly high?: number | undefined;
}

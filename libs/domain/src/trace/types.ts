import type { Quantity } from '../quantity/quantity.ts';

export type TraceKind =
  'lot' | 'pile' | 'batch' | 'draw' | 'application' | 'field' | 'planting' | 'harvest' | 'shipment';

export interface TraceRef {
  readonly kind: TraceKind;
  readonly id: string;
}

export const isSame = (a: TraceRef, b: TraceRef): boolean => a.id === b.id && a.kind === b.kind;

/** What a trace may begin with. */
export type TraceRoot = TraceRef & {
  readonly kind: 'lot' | 'batch' | 'field' | 'planting' | 'harvest';
};

export interface TraceNode extends TraceRef {
  /** What people call it; the id's first block where no record named it. */
  readonly code: string;
}

/** One recorded step. No quantity where none is known or meant (plantings, harvests, shipments). */
export interface TraceEdge {
  readonly from: TraceRef;
  readonly to: TraceRef;
  readonly quantity?: Quantity;
  /** To a shipment: what was shipped of the harvest. */
  readonly shipped?: Quantity;
  readonly recordId: string;
}

/** How much of the root ended in a place, and what part of the whole that is; left out where it cannot be told. */
export interface Reached {
  readonly id: string;
  readonly code: string;
  readonly quantity?: Quantity;
  readonly share?: number;
}

/** Where a part ended without reaching ground. */
export interface TraceEnd {
  readonly kind:
    | 'leftInStock'
    | 'leftInPile'
    | 'leftInTank'
    | 'leftInLoad'
    | 'lotDisposed'
    | 'lost'
    | 'disposed'
    | 'dumped'
    | 'supplied'
    | 'carriedOff';
  /** The lot, pile, batch or draw it ended in or left from. */
  readonly at: TraceRef;
  readonly quantity?: Quantity;
  readonly share?: number;
  readonly recordId?: string;
  readonly why: string;
}

/** Something the records leave open, in words. */
export interface Unresolved {
  readonly id: string;
  readonly why: string;
  readonly quantity?: Quantity;
}

export interface Trace {
  readonly root: TraceNode;
  readonly direction: 'forward' | 'backward';
  /** The whole that the shares are of: what was received of a lot, what was filled into a batch. */
  readonly whole?: Quantity;
  readonly nodes: readonly TraceNode[];
  readonly edges: readonly TraceEdge[];
  readonly reached: {
    readonly lots: readonly Reached[];
    readonly batches: readonly Reached[];
    readonly fields: readonly Reached[];
    readonly plantings: readonly Reached[];
    readonly harvests: readonly Reached[];
    readonly shipments: readonly Reached[];
  };
  readonly ends: readonly TraceEnd[];
  readonly unresolved: readonly Unresolved[];
}

import type { Amount } from './unit-codes.ts';

/** A class of things (a lot, a batch, a harvest) and how much of it; without `quantity` the amount is not known. */
export interface QuantityElement extends Partial<Amount> {
  readonly epcClass: string;
}

export interface Place {
  readonly id: string;
}

interface Common {
  readonly eventID: string;
  readonly eventTime: string;
  readonly eventTimeZoneOffset: string;
  readonly recordTime?: string;
  readonly bizStep: string;
  readonly disposition?: string;
  readonly readPoint?: Place;
  readonly bizLocation?: Place;
  readonly bizTransactionList?: readonly { readonly type?: string; readonly bizTransaction: string }[];
  readonly destinationList?: readonly { readonly type: string; readonly destination: string }[];
  readonly sourceList?: readonly { readonly type: string; readonly source: string }[];
  readonly errorDeclaration?: {
    readonly declarationTime: string;
    readonly reason: 'did_not_occur' | 'incorrect_data';
    readonly correctiveEventIDs?: readonly string[];
  };
  /** What EPCIS has no word for, under the project's own terms. */
  readonly [own: `furrowmark:${string}`]: string | undefined;
}

/** Something was seen, came to be or ceased to be. */
export interface ObjectEvent extends Common {
  readonly type: 'ObjectEvent';
  readonly action: 'ADD' | 'OBSERVE' | 'DELETE';
  readonly quantityList: readonly QuantityElement[];
}

/** Inputs became outputs. It has no action. */
export interface TransformationEvent extends Common {
  readonly type: 'TransformationEvent';
  readonly transformationID: string;
  readonly inputQuantityList?: readonly QuantityElement[];
  readonly outputQuantityList: readonly QuantityElement[];
}

export type EpcisEvent = ObjectEvent | TransformationEvent;

/** An event, and the thing in a trace that it belongs to (a lot, batch, application, harvest or shipment). */
export interface TraceEvent {
  readonly about: string;
  readonly at: number;
  /** The records that it follows from, by the id they were first written under. */
  readonly recordIds: readonly string[];
  readonly event: EpcisEvent;
}

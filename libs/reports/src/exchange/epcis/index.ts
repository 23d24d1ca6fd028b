export { epcisDocument, traceEvents, type EpcisDocument, type Wanted } from './document.ts';
export { noKeys, type Gs1Keys } from './identity.ts';
export type { EpcisEvent, ObjectEvent, QuantityElement, TraceEvent, TransformationEvent } from './types.ts';
export { ucumOf } from './unit-codes.ts';

export { edgesOf } from './edges.ts';
export { trace, type TraceRoot } from './trace.ts';
export type * from './types.ts';

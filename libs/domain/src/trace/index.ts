export { edgesOf } from './edges.ts';
export { trace } from './trace.ts';
export type * from './types.ts';

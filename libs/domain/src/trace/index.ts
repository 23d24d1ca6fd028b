export { edgesOf } from './edges.ts';
export type * from './types.ts';

export * from './facts/time.ts';
export * from './quantity/quantity.ts';
export * from './records/index.ts';

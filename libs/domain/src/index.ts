export * from './facts/time.ts';
export * from './calendar/index.ts';
export * from './quantity/index.ts';
export * from './records/index.ts';

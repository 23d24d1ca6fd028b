export * from './content.ts';
export * from './clock.ts';
export * from './tables.ts';

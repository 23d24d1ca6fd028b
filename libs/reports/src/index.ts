export * from './content.ts';
export * from './clock.ts';
export * from './tables.ts';
export { reportKind, reportKinds } from './catalogue.ts';
export type { Given } from './telling/index.ts';
export { isRefusal, type ReportKind, type ReportRefusal } from './reports/kind.ts';
export * from './exchange/index.ts';

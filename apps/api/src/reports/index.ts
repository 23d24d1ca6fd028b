export { Reports, type ReportRequest } from './reports.ts';

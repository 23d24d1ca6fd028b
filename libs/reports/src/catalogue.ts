import { batchRecord } from './reports/batch-record/batch-record.ts';
import { findingsReport } from './reports/findings.ts';
import { lotTrace } from './reports/lot-trace/lot-trace.ts';
import type { ReportKind } from './reports/kind.ts';
import { seasonApplications } from './reports/season-applications.ts';

/** Every kind of report there is. A new one is its content file, its test and a line here. */
export const reportKinds: readonly ReportKind[] = [batchRecord, lotTrace, seasonApplications, findingsReport];

export const reportKind = (kind: string): ReportKind | undefined => reportKinds.find((each) => each.kind === kind);

import { batchRecord } from './reports/batch-record/batch-record.ts';
import { changes } from './reports/changes.ts';
import { fieldHistory } from './reports/field-history.ts';
import { findingsReport } from './reports/findings.ts';
import { harvestApplications } from './reports/harvest-applications.ts';
import { harvestWhereabouts } from './reports/harvest-whereabouts.ts';
import { inputList } from './reports/input-list.ts';
import { inspectionPacket } from './reports/inspection-packet.ts';
import type { ReportKind } from './reports/kind.ts';
import { lotTrace } from './reports/lot-trace/lot-trace.ts';
import { massBalance } from './reports/mass-balance.ts';
import { neighboursAndBuffers } from './reports/neighbours-and-buffers.ts';
import { ownCompost } from './reports/own-compost.ts';
import { recallSheet } from './reports/recall-sheet.ts';
import { recordLogs } from './reports/record-logs.ts';
import { seasonApplications } from './reports/season-applications.ts';
import { stock } from './reports/stock.ts';
import { tankCalendar } from './reports/tank-calendar.ts';
import { tankSheet } from './reports/tank-sheet.ts';
import { traceabilityEvents } from './reports/traceability-events.ts';
import { traceabilityList } from './reports/traceability-list.ts';

/** Every kind of report there is. A new one is its content file, its test and a line here. */
export const reportKinds: readonly ReportKind[] = [
  batchRecord,
  lotTrace,
  seasonApplications,
  findingsReport,
  recallSheet,
  inputList,
  massBalance,
  stock,
  tankCalendar,
  harvestApplications,
  changes,
  fieldHistory,
  ownCompost,
  harvestWhereabouts,
  neighboursAndBuffers,
  traceabilityList,
  traceabilityEvents,
  tankSheet,
  ...recordLogs,
  inspectionPacket,
];

export const reportKind = (kind: string): ReportKind | undefined => reportKinds.find((each) => each.kind === kind);

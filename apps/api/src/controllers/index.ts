import { IncomingController, OutgoingController } from '../exchange/index.ts';
import { AccessLinksController } from './access-links.controller.ts';
import { AccountController } from './account.controller.ts';
import { AlertsController } from './alerts.controller.ts';
import { AppendController } from './append.controller.ts';
import { BatchesController } from './batches.controller.ts';
import { CalculationsController } from './calculations.controller.ts';
import { CheckController } from './check.controller.ts';
import { DeadlinesController } from './deadlines.controller.ts';
import { DescriptionController } from './description.controller.ts';
import { DocumentsController } from './documents.controller.ts';
import { ExportController } from './export.controller.ts';
import { FindingsController } from './findings.controller.ts';
import { HealthController } from './health.controller.ts';
import { ImportController } from './import.controller.ts';
import { InvitationsController } from './invitations.controller.ts';
import { LogKeyController } from './log-key.controller.ts';
import { LogController } from './log.controller.ts';
import { MembersController } from './members.controller.ts';
import { OperationsController } from './operations.controller.ts';
import { PlanController } from './plan.controller.ts';
import { ProblemsController } from './problems.controller.ts';
import { RecordProofController } from './record-proof.controller.ts';
import { RecordsController } from './records.controller.ts';
import { ReportJobsController } from './report-jobs.controller.ts';
import { ReportsController } from './reports.controller.ts';
import { ReviewsController } from './reviews.controller.ts';
import { RuleBookController } from './rule-book.controller.ts';
import { SessionController } from './session.controller.ts';
import { TraceController } from './trace.controller.ts';

import { WitnessesController } from './witnesses.controller.ts';

/** Every controller of the service. */
export const controllers = [
  HealthController,
  ProblemsController,
  DescriptionController,
  CalculationsController,
  SessionController,
  AccountController,
  InvitationsController,
  ImportController,
  OperationsController,
  MembersController,
  AccessLinksController,
  AppendController,
  RecordsController,
  CheckController,
  BatchesController,
  FindingsController,
  RuleBookController,
  DeadlinesController,
  AlertsController,
  TraceController,
  PlanController,
  ReportsController,
  ReportJobsController,
  ReviewsController,
  DocumentsController,
  LogController,
  LogKeyController,
  WitnessesController,
  RecordProofController,
  ExportController,
  OutgoingController,
  IncomingController,
] as const;

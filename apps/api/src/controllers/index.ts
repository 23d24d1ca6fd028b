import { AppendController } from './append.controller.ts';
import { BatchesController } from './batches.controller.ts';
import { CalculationsController } from './calculations.controller.ts';
import { CheckController } from './check.controller.ts';
import { DescriptionController } from './description.controller.ts';
import { FindingsController } from './findings.controller.ts';
import { HealthController } from './health.controller.ts';
import { LogController } from './log.controller.ts';
import { OperationsController } from './operations.controller.ts';
import { PlanController } from './plan.controller.ts';
import { ProblemsController } from './problems.controller.ts';
import { RecordsController } from './records.controller.ts';
import { ReportsController } from './reports.controller.ts';
import { RuleBookController } from './rule-book.controller.ts';
import { TraceController } from './trace.controller.ts';

/** Every controller of the service. */
export const controllers = [
  HealthController,
  ProblemsController,
  DescriptionController,
  CalculationsController,
  OperationsController,
  AppendController,
  RecordsController,
  CheckController,
  BatchesController,
  FindingsController,
  RuleBookController,
  TraceController,
  PlanController,
  ReportsController,
  LogController,
] as const;

import { AppendController } from './append.controller.ts';
import { CalculationsController } from './calculations.controller.ts';
import { HealthController } from './health.controller.ts';
import { LogController } from './log.controller.ts';
import { OperationsController } from './operations.controller.ts';
import { ProblemsController } from './problems.controller.ts';
import { RecordsController } from './records.controller.ts';

/** Every controller of the service. */
export const controllers = [
  HealthController,
  ProblemsController,
  CalculationsController,
  OperationsController,
  AppendController,
  RecordsController,
  LogController,
] as const;

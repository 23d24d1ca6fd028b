export {
  openService,
  startService,
  type RunningService,
  type ServerOptions,
  type Service,
  type ServiceOptions,
} from './service.ts';
export { Clock, machineClock } from './clock.ts';
export { ReportMaker } from './report-jobs/index.ts';
export { Deadlines, KeptOutcomes, RuleUpgrades } from './views/index.ts';
export { AlreadyServed, assertLeastRights, NewerSchema, openDatabase, OperationScope } from './database/index.ts';

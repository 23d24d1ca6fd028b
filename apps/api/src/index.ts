export {
  openService,
  startService,
  type RunningService,
  type ServerOptions,
  type Service,
  type ServiceOptions,
} from './service.ts';
export { Clock, machineClock } from './clock.ts';

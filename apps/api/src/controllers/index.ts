import { AppendController } from './append.controller.ts';
import { OperationsController } from './operations.controller.ts';

/** Every controller of the service. */
export const controllers = [OperationsController, AppendController] as const;

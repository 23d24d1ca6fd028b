import type { Identity } from './access.ts';

/** Takes note that a reading link was used: in the log, before anything is shown. */
export abstract class LinkUse {
  abstract note(operationId: string, identity: Identity): Promise<void>;
}

import { useExternal } from '../store/external.ts';
import { roleOf, session } from './session.ts';

/** Inspectors only read: to them nothing is offered that would be refused. */
export const useMayRecord = (): boolean => roleOf(useExternal(session)) !== 'inspector';

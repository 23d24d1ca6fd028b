import { useExternal } from '../store/external.ts';
import { session } from './session.ts';

/** Inspectors only read: to them nothing is offered that would be refused. */
export const useMayRecord = (): boolean => useExternal(session)?.role !== 'inspector';

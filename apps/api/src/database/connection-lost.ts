import { codeOf } from '../error-code.ts';

// Class 08 (connection), 57P01-57P05 (shutting down, crashed, starting up, dropped, idle too long), 25P03 and 25P04 (a
// transaction idle or running too long was ended with its session) of PostgreSQL's error codes (appendix A of its manual),
// and 25006: a server that only reads stands where the one that writes should, as in the middle of a failover.
const lost =
  /^(08...|57P0[1-5]|25P0[34]|25006|E(CONNREFUSED|CONNRESET|CONNABORTED|PIPE|TIMEDOUT|HOSTUNREACH|HOSTDOWN|NETUNREACH|NETDOWN|NOTFOUND|AI_AGAIN))$/;
// Between two statements of a transaction the driver and TypeORM give a dead connection up; the next statement says so.
const words =
  /Connection terminated|(connection error|was closed) and is not queryable|Query runner already released|a query runner was already released|timeout exceeded when trying to connect|Query read timeout|Driver not Connected/i;

/** True where the database went away, rather than refused: what was sent may be sent again. */
export function isConnectionLost(error: unknown): boolean {
  if (typeof error !== 'object' || error === null) return false;
  if (lost.test(codeOf(error) ?? '')) return true;
  // What node:net throws for several addresses, and what TypeORM wraps.
  if ('errors' in error && Array.isArray(error.errors) && error.errors.some(isConnectionLost)) return true;
  if ('driverError' in error && error.driverError !== error && isConnectionLost(error.driverError)) return true;
  return 'message' in error && words.test(String(error.message));
}

/**
 * True where the database ended a statement for the sake of others or of time, not for what was sent: it took longer than
 * it may (57014), waited too long for a lock (55P03), or stood in the way of another transaction (40001, 40P01). Sent again,
 * it may go better.
 */
export function tookTooLong(error: unknown): boolean {
  return /^(57014|55P03|40001|40P01)$/.test(codeOf(error) ?? '');
}

/**
 * True where there is no room: class 53 of PostgreSQL's error codes (53100 disk full, 53200 out of memory, 53300 too many
 * connections), and what the system says of its files: no room, or too many open. Once somebody has made room, the same can be sent again.
 */
export function outOfRoom(error: unknown): boolean {
  return /^(53...|ENOSPC|EDQUOT|EMFILE|ENFILE)$/.test(codeOf(error) ?? '');
}

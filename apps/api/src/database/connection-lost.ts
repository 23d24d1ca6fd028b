import { QueryFailedError } from 'typeorm';

// Class 08 (connection), 57P01-57P03 (shutting down, crashed, starting up) of PostgreSQL's error codes.
const lost = /^(08...|57P0[1-5]|E(CONNREFUSED|CONNRESET|PIPE|TIMEDOUT|HOSTUNREACH|NOTFOUND))$/;
const words =
  /Connection terminated|connection error and is not queryable|timeout exceeded when trying to connect|Driver not Connected/i;

/** True where the database went away, rather than refused: what was sent may be sent again. */
export function isConnectionLost(error: unknown): boolean {
  if (error instanceof AggregateError) return error.errors.some(isConnectionLost);
  if (!(error instanceof Error)) return false;
  if ('code' in error && typeof error.code === 'string' && lost.test(error.code)) return true;
  if (error instanceof QueryFailedError && error.driverError !== error && isConnectionLost(error.driverError))
    return true;
  return words.test(error.message);
}

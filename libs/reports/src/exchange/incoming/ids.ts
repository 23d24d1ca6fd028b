import { v5 } from 'uuid';

/** As bytes: the namespace may be a UUID of any version, which the library would otherwise refuse. */
const bytes = (uuid: string): Uint8Array =>
  Uint8Array.from(uuid.replaceAll('-', '').match(/../g) ?? [], (pair) => parseInt(pair, 16));

/**
 * The id of what a row says: UUIDv5 (RFC 9562) of the operation and the row's content. The same file taken twice gives the
 * same records, and the log takes them once.
 */
export const idFrom = (operationId: string, ...content: readonly unknown[]): string =>
  v5(JSON.stringify(['import', ...content]), bytes(operationId));

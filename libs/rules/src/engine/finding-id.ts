import { v5 } from 'uuid';
import type { SubjectKind } from '../outcome.ts';

const namespaces = new Map<string, Uint8Array>();

/** As bytes: an operation's id may be a UUID of any version, which the library would refuse as text. */
function namespaceOf(operationId: string): Uint8Array {
  let bytes = namespaces.get(operationId);
  if (bytes === undefined) {
    bytes = Uint8Array.from(operationId.replaceAll('-', '').match(/../g) ?? [], (byte) => parseInt(byte, 16));
    if (namespaces.size >= 1000) namespaces.clear();
    namespaces.set(operationId, bytes);
  }
  return bytes;
}

/** UUIDv5 with the operation's id as namespace, of `ruleId|subjectKind|subjectId` (RFC 9562 §5.5). */
export function findingId(operationId: string, ruleId: string, kind: SubjectKind, subjectId: string): string {
  return v5(`${ruleId}|${kind}|${subjectId}`, namespaceOf(operationId));
}

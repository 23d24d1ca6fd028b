import { uuid5, uuidBytes } from '@furrowmark/domain';
import type { SubjectKind } from '../outcome.ts';

const namespaces = new Map<string, Uint8Array>();

function namespaceOf(operationId: string): Uint8Array {
  let bytes = namespaces.get(operationId);
  if (bytes === undefined) {
    bytes = uuidBytes(operationId);
    if (namespaces.size >= 1000) namespaces.clear();
    namespaces.set(operationId, bytes);
  }
  return bytes;
}

/** UUIDv5 with the operation's id as namespace, of `ruleId|subjectKind|subjectId` (RFC 9562 §5.5). */
export function findingId(operationId: string, ruleId: string, kind: SubjectKind, subjectId: string): string {
  return uuid5(namespaceOf(operationId), `${ruleId}|${kind}|${subjectId}`);
}

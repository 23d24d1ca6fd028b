import { ask, type Answer } from '../http/ask.ts';
import { session } from '../session/session.ts';
import { database } from '../store/database.ts';

/** Sends the photos that wait. One leaves the device only after the service has it. */
export async function sendFiles(operationId: string): Promise<'all' | Exclude<Answer, { kind: 'ok' }>> {
  const db = await database();
  let trouble: Exclude<Answer, { kind: 'ok' }> | null = null;
  for (const file of await db.getAll('files')) {
    if (file.operationId !== operationId) continue;
    const answer = await ask(`/operations/${operationId}/documents`, {
      method: 'POST',
      as: session.get()?.token,
      body: file.blob,
      headers: { 'content-type': file.mediaType },
    });
    if (answer.kind === 'ok') await db.delete('files', file.sha256);
    else if (answer.kind === 'refused') trouble = answer;
    else return answer;
  }
  return trouble ?? 'all';
}

import { ask, problemIn, type Answer } from '../http/ask.ts';
import { settle, waiting } from '../store/queue.ts';
import type { Queued } from '../store/queued.ts';

/** Records in one request: small, so that on one bar of reception some of a long queue gets through. */
const atOnce = 50;

export type Sent = 'all' | Exclude<Answer, { kind: 'ok' }>;

/** Sends what waits, in the order of entry. Each is sent under its own id, so that sending twice records once. */
export async function sendWaiting(operationId: string): Promise<Sent> {
  for (;;) {
    const group = await waiting(operationId, atOnce);
    if (group.length === 0) return 'all';
    const stopped = await sendGroup(operationId, group);
    if (stopped !== null) return stopped;
  }
}

async function sendGroup(operationId: string, group: readonly Queued[]): Promise<Exclude<Sent, 'all'> | null> {
  const records = group.map(({ record }) => record);
  const answer = await ask(`/operations/${operationId}/records`, {
    method: 'POST',
    json: { records, sentAt: new Date().toISOString() },
  });
  if (answer.kind === 'ok') {
    await settle(group.flatMap((sent) => outcomeOf(sent, answer.body)));
    return null;
  }
  if (answer.kind !== 'refused' || [403, 404].includes(answer.status)) return answer;
  const [only, second] = group;
  // The request as a whole was not taken: one of them is at fault, or together they are too large.
  if (second === undefined) {
    if (only !== undefined) await settle([{ sent: only, state: { kind: 'refused', problem: answer.problem } }]);
    return null;
  }
  const half = Math.ceil(group.length / 2);
  return (await sendGroup(operationId, group.slice(0, half))) ?? (await sendGroup(operationId, group.slice(half)));
}

function outcomeOf(sent: Queued, body: unknown): { sent: Queued; state: Queued['state'] }[] {
  const results: unknown = memberOf(body, 'results');
  const result: unknown = Array.isArray(results) ? results.find((each) => memberOf(each, 'id') === sent.id) : undefined;
  const status = memberOf(result, 'status');
  if (status === 'recorded' || status === 'duplicate') {
    const recordedAt = memberOf(result, 'recordedAt');
    return [
      {
        sent,
        state: {
          kind: 'recorded',
          seq: Number(memberOf(result, 'seq')),
          recordedAt: typeof recordedAt === 'string' ? recordedAt : '',
        },
      },
    ];
  }
  // No answer for this one: it keeps waiting.
  if (status !== 'refused') return [];
  return [{ sent, state: { kind: 'refused', problem: problemIn(memberOf(result, 'problem')) } }];
}

const memberOf = (value: unknown, name: string): unknown =>
  typeof value === 'object' && value !== null ? Reflect.get(value, name) : undefined;

import { ask, problemIn, type Answer } from '../http/ask.ts';
import { session } from '../session/session.ts';
import { settle, waiting } from '../store/queue.ts';
import type { Queued } from '../store/queued.ts';

/** Records in one request: small, so that on one bar of reception some of a long queue gets through. */
const atOnce = 50;

export type Sent = 'all' | Exclude<Answer, { kind: 'ok' }>;

/**
 * Sends what waits, in the order of entry. Each is sent under its own id, so that sending twice records once. On a shared
 * phone, what somebody entered goes in their name while they hold it; later, the phone itself delivers it: what one person
 * entered is never sent in the name of another.
 */
export async function sendWaiting(operationId: string): Promise<Sent> {
  for (;;) {
    const [first, ...rest] = await waiting(operationId, atOnce);
    if (first === undefined) return 'all';
    const as = tokenFor(first);
    const other = rest.findIndex((each) => tokenFor(each) !== as);
    const group = [first, ...(other === -1 ? rest : rest.slice(0, other))];
    const stopped = await sendGroup(operationId, group, as);
    // Only the person's own sign-in has ended: the phone sends it.
    const left = stopped?.kind === 'ended' && session.get()?.ended === false && tokenFor(first) !== as;
    if (stopped !== null && !left) return stopped;
  }
}

function tokenFor({ by }: Queued): string | undefined {
  const now = session.get();
  const own = by !== undefined && now?.hand?.accountId === by.accountId;
  return own ? now?.hand?.token : now?.token;
}

async function sendGroup(
  operationId: string,
  group: readonly Queued[],
  as: string | undefined,
): Promise<Exclude<Sent, 'all'> | null> {
  const records = group.map(({ record }) => record);
  const answer = await ask(`/operations/${operationId}/records`, {
    method: 'POST',
    as,
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
  const former = await sendGroup(operationId, group.slice(0, half), as);
  return former ?? (await sendGroup(operationId, group.slice(half), as));
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

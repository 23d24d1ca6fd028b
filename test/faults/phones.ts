import { setTimeout as pause } from 'node:timers/promises';
import { z } from 'zod';
import { Chance } from './chance.ts';

/** A record as a phone holds it in its queue. */
export interface Queued {
  readonly id: string;
  readonly [member: string]: unknown;
}

/** What phones sent and what they were told; and whatever was not as it must be. */
export interface Told {
  readonly sent: Map<string, Queued>;
  /** seq by id, of records said to be recorded or known. */
  readonly acknowledged: Map<string, number>;
  readonly statuses: Map<string, number>;
  readonly wrong: string[];
}
export const freshlyTold = (): Told => ({
  sent: new Map(),
  acknowledged: new Map(),
  statuses: new Map(),
  wrong: [],
});

const answer = z.object({
  results: z.array(z.object({ id: z.string(), status: z.enum(['recorded', 'duplicate']), seq: z.number() })),
});

/** A brew as somebody writes it down: a batch opened, filled, aerated, looked at, emptied, closed. */
export function brew(chance: Chance, number: number): Queued[] {
  const batchId = chance.uuid();
  const begun = Date.parse('2026-05-01T06:00:00Z') + (number % 20_000) * 60_000;
  const record = (type: string, minutes: number, data: object): Queued => {
    const occurredAt = new Date(begun + minutes * 60_000).toISOString();
    return { id: chance.uuid(), type, version: 1, occurredAt, data: { batchId, ...data } };
  };
  const gallons = (value: number) => ({ value, unit: '[gal_us]' });
  const readings = Array.from({ length: 1 + chance.below(6) }, (_, i) =>
    record('batch.oxygenMeasured', 60 + i * 240, {
      dissolvedOxygen: { value: 5 + chance.below(40) / 10, unit: 'mg/L' },
      temperature: { value: 60 + chance.below(12), unit: '[degF]' },
    }),
  );
  return [
    record('batch.opened', 0, { code: `T-${number}`, kind: 'aeratedTea', vesselId: chance.uuid() }),
    record('batch.filled', 5, { volume: gallons(200 + chance.below(60)), sourceId: chance.uuid() }),
    record('batch.airStarted', 20, { blowerId: chance.uuid() }),
    ...readings,
    record('batch.checked', 700, { note: `looked at, ${chance.below(1000)}` }),
    record('batch.airStopped', 1_500, { cause: 'planned' }),
    record('batch.lost', 1_600, { volume: gallons(3), cause: 'foam' }),
    record('batch.closed', 1_700, { remainingVolume: gallons(0) }),
  ];
}

/** Where phones deliver; it moves when the service is started anew. */
export interface Address {
  url: string;
  readonly token: string;
  readonly operationId: string;
}

/**
 * A phone: writes brews into its queue and delivers it as a phone without a good connection does, in pieces of any size,
 * out of order, one piece twice, everything again that was not acknowledged and now and then something that was.
 */
export async function phone(to: Address, chance: Chance, first: number, told: Told, until: { stopped: boolean }) {
  let queue: Queued[] = [];
  const delivered: Queued[] = [];
  for (let number = first; !until.stopped && told.wrong.length === 0; number += 100) {
    queue.push(...brew(chance, number));
    if (chance.below(3) === 0) queue.sort((a, b) => (a.id < b.id ? -1 : 1));
    while (queue.length > 4 && !until.stopped && told.wrong.length === 0) {
      const piece = queue.slice(0, 1 + chance.below(12));
      const again = delivered.length > 0 && chance.below(4) === 0 ? [delivered[chance.below(delivered.length)]] : [];
      const records = [...piece, ...again.filter((each) => each !== undefined)];
      if (chance.below(5) === 0) records.push(...records.slice(0, 2));
      const sendings = chance.below(8) === 0 ? [records, records.toReversed()] : [records];
      const done = await Promise.all(sendings.map((each) => deliver(to, each, told)));
      if (done.every(Boolean)) {
        delivered.push(...piece);
        queue = queue.filter(({ id }) => !told.acknowledged.has(id));
      } else await pause(100);
    }
  }
}

/** Sends once and notes what was answered; whether it was acknowledged. */
export async function deliver(to: Address, records: readonly Queued[], told: Told): Promise<boolean> {
  for (const record of records) told.sent.set(record.id, record);
  const count = (status: string): void => void told.statuses.set(status, (told.statuses.get(status) ?? 0) + 1);
  try {
    const got = await fetch(`${to.url}/api/v1/operations/${to.operationId}/records`, {
      method: 'POST',
      headers: { authorization: `Bearer ${to.token}`, 'content-type': 'application/json' },
      body: JSON.stringify({ records }),
      signal: AbortSignal.timeout(30_000),
    });
    const body: unknown = await got.json();
    count(String(got.status));
    if (got.status !== 200) {
      const wait = Number(got.headers.get('retry-after'));
      if (got.status !== 503 || !(wait > 0)) told.wrong.push(`${got.status}: ${JSON.stringify(body).slice(0, 500)}`);
      return false;
    }
    const parsed = answer.safeParse(body);
    if (!parsed.success) {
      told.wrong.push(`not as described: ${JSON.stringify(body).slice(0, 800)}`);
      return false;
    }
    for (const { id, seq } of parsed.data.results) {
      const before = told.acknowledged.get(id);
      if (before !== undefined && before !== seq) told.wrong.push(`${id} at ${seq}, before at ${before}`);
      told.acknowledged.set(id, seq);
    }
    return true;
  } catch (error) {
    // The connection broke before the answer: nothing was acknowledged.
    count(error instanceof DOMException && error.name === 'TimeoutError' ? 'timed out' : 'broken off');
    return false;
  }
}

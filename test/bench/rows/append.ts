import { eventSchema, eventStore } from '../event-store.ts';
import { alone, inTurn, spreadOf, type Extent, type Row } from '../measure.ts';
import { lotsUsed, requests, season, type Sent } from '../records.ts';
import type { Served } from '../served.ts';
import { randomUUID } from 'node:crypto';

const perSecond = (records: number, ms: number): number => (records / ms) * 1000;

/** Appends of a hundred records a request, by one writer and by eight on operations of their own. */
export async function appendRows(served: Served, { mode, rounds }: Extent): Promise<Row[]> {
  const each = mode === 'quick' ? 200 : 1_000;
  const bodies = requests(season(each), 100);
  const rows: Row[] = [];
  for (const writers of [1, 8]) {
    const processor: number[] = [];
    const measured = await inTurn(
      rounds,
      async () => {
        const operations = await Promise.all(Array.from({ length: writers }, () => served.operation()));
        const texts = bodies.map((records) => JSON.stringify({ records }));
        const before = served.processorMs();
        const start = performance.now();
        await Promise.all(
          operations.map(async (operation) => {
            for (const text of texts) await served.append(operation, text);
          }),
        );
        const took = performance.now() - start;
        for (const operation of operations) await served.settle(operation);
        processor.push(((served.processorMs() - before) / (each * writers)) * 1000);
        return perSecond(each * writers, took);
      },
      async () => {
        const lines = bodies.map((records) => records.map((record) => Buffer.from(JSON.stringify(record))));
        const start = performance.now();
        await Promise.all(
          Array.from({ length: writers }, async () => {
            const operation = randomUUID();
            let seq = 0;
            for (const part of lines) await bareInsert(served, operation, (seq += part.length), part);
          }),
        );
        return perSecond(each * writers, performance.now() - start);
      },
    );
    rows.push({
      work: `append, 100 records a request, everything on, over HTTP, ${writers === 1 ? 'one writer' : '8 writers on operations of their own'}`,
      beside: 'bare multi-row insert of the same bytes, one commit a hundred',
      unit: 'records/s',
      ...measured,
      aim: '≥ 0.5',
      reached: measured.ratio.median >= 0.5,
      remark: `${spreadOf(processor.slice(1)).median.toFixed(0)} ms of the service's processor time a thousand records, settling included`,
    });
  }
  return rows;
}

/** The same without HTTP, beside a general event store from npm in the same process and under the same login. */
export async function inProcessRows(served: Served, { mode, rounds }: Extent): Promise<Row[]> {
  const parts = requests(season(mode === 'quick' ? 200 : 1_000), 100);
  const records = parts.flat().length;
  const library = eventStore(served.ownerUrl);
  await library.seed();
  await library.dispose();
  const login = decodeURIComponent(new URL(served.serviceUrl).username);
  await served.pool.query(
    `GRANT USAGE ON SCHEMA ${eventSchema} TO "${login}";
     GRANT SELECT, INSERT ON ALL TABLES IN SCHEMA ${eventSchema} TO "${login}";
     GRANT USAGE ON ALL SEQUENCES IN SCHEMA ${eventSchema} TO "${login}"`,
  );
  const measured = await inTurn(
    rounds,
    async () => {
      const operationId = await served.operation();
      const ms = await served.timed({ do: 'append', operationId, requests: parts });
      await served.settle(operationId);
      return perSecond(records, ms);
    },
    async () => perSecond(records, await served.timed({ do: 'commit', stream: randomUUID(), requests: parts })),
  );
  return [
    {
      work: 'append, 100 records a call, everything on, in process, one writer',
      beside: 'a general event store from npm (@rotorsoft/act-pg), 100 events a commit, same process, same login',
      unit: 'records/s',
      ...measured,
      aim: '≥ 1.0',
      reached: measured.ratio.median >= 1,
    },
  ];
}

/** A hundred operations at once, beside one operation that gets as many records from as many clients. */
export async function manyRows(served: Served, { mode, rounds }: Extent): Promise<Row[]> {
  const many = mode === 'quick' ? 5 : 100;
  const each = season(100);
  const all = requests(season(many * 100), 100).map((records) => JSON.stringify({ records }));
  const text = JSON.stringify({ records: each });
  const measured = await inTurn(
    rounds,
    async () => {
      const operations: string[] = [];
      for (let n = 0; n < many; n += 1) operations.push(await served.operation());
      const start = performance.now();
      await Promise.all(operations.map((operation) => served.append(operation, text)));
      const rate = perSecond(many * 100, performance.now() - start);
      for (const operation of operations) await served.settle(operation);
      return rate;
    },
    async () => {
      const operation = await served.operation();
      const start = performance.now();
      await Promise.all(all.map((body) => served.append(operation, body)));
      const rate = perSecond(many * 100, performance.now() - start);
      await served.settle(operation);
      return rate;
    },
  );
  return [
    {
      work: `append to ${many} operations at once, 100 records each, over HTTP`,
      beside: 'as many records of as many requests at once to one operation',
      unit: 'records/s',
      ...measured,
      aim: '≥ 0.8',
      reached: measured.ratio.median >= 0.8,
    },
  ];
}

const clients = 16;

/** Single records of 16 clients on one operation; and the same in a small and in a large operation. */
export async function singleRows(served: Served, { mode, rounds }: Extent): Promise<Row[]> {
  const each = mode === 'quick' ? 3 : 20;
  const total = clients * each;
  const [small, large] = mode === 'quick' ? [100, 400] : mode === 'long' ? [1_000, 100_000] : [1_000, 20_000];
  const records = season(large);
  const smallOperation = await served.operation(records.slice(0, small));
  const largeOperation = await served.operation(records);
  const into = async (operation: string): Promise<number> => {
    await served.settle(operation);
    const texts = readings(records, total).map((record) => JSON.stringify({ records: [record] }));
    const start = performance.now();
    await together(each, (n) => served.append(operation, texts[n] ?? ''));
    return perSecond(total, performance.now() - start);
  };
  const measured = await inTurn(
    rounds,
    async () => into(smallOperation),
    async () => {
      const operation = randomUUID();
      const lines = readings(records, total).map((record) => Buffer.from(JSON.stringify(record)));
      const start = performance.now();
      await together(each, (n) => bareInsert(served, operation, n + 1, [lines[n] ?? Buffer.alloc(0)]));
      return perSecond(total, performance.now() - start);
    },
  );
  const sizes = await inTurn(
    rounds,
    () => into(largeOperation),
    () => into(smallOperation),
  );
  const slower = spreadOf([1 / sizes.ratio.median, 1 / sizes.ratio.least, 1 / sizes.ratio.most]);
  return [
    {
      work: `append of single records, ${clients} clients on one operation (appended in groups), over HTTP`,
      beside: `bare single-row inserts, a commit each, ${clients} connections`,
      unit: 'records/s',
      ...measured,
      aim: '≥ 1.0',
      reached: measured.ratio.median >= 1,
    },
    {
      work: `the same in an operation of ${large} records`,
      beside: `in one of ${small} records`,
      unit: 'records/s',
      ...{ ours: sizes.ours, peer: sizes.peer, ratio: slower },
      aim: '≤ 1.2 × slower',
      reached: slower.median <= 1.2,
      remark: 'the ratio is how many times slower',
    },
  ];
}

/** Appends while a recall that touches much of a season is being settled, beside the same without. */
export async function settlingRows(served: Served, { mode, rounds }: Extent): Promise<Row[]> {
  const size = mode === 'quick' ? 400 : mode === 'long' ? 100_000 : 10_000;
  const records = season(size);
  const operation = await served.operation(records);
  const lots = lotsUsed(records);
  const texts = (): string[] =>
    requests(readings(records, mode === 'quick' ? 100 : 1_000), 100).map((part) => JSON.stringify({ records: part }));
  const rate = async (): Promise<number> => {
    const all = texts();
    const start = performance.now();
    for (const text of all) await served.append(operation, text);
    return perSecond(all.length * 100, performance.now() - start);
  };
  const measured = await inTurn(
    rounds,
    async (round) => {
      await served.settle(operation);
      const recall = {
        id: randomUUID(),
        type: 'lot.recalled',
        version: 1,
        occurredAt: '2026-11-01T08:00:00Z',
        data: { lotId: lots[round % lots.length], reason: 'drums from an untreated tank' },
      };
      await served.append(operation, JSON.stringify({ records: [recall] }));
      return rate();
    },
    async () => {
      await served.settle(operation);
      return rate();
    },
  );
  return [
    {
      work: `append, 100 records a request, while a recall settles in an operation of ${size} records, over HTTP`,
      beside: 'the same without a recall',
      unit: 'records/s',
      ...measured,
      aim: '≥ 0.8',
      reached: measured.ratio.median >= 0.8,
    },
  ];
}

/**
 * Oxygen readings with ids of their own, of the batches of the first thousand records in turn: no batch gets more of them
 * than a watched tank would.
 */
function readings(records: readonly Sent[], count: number): Sent[] {
  const written = records.slice(0, 1_000).filter((record) => record['type'] === 'batch.oxygenMeasured');
  return Array.from({ length: count }, (_, n) => ({ ...written[n % written.length], id: randomUUID() }));
}

/** Each of the clients does its share, one after the other; `work` gets the number of the record. */
async function together(each: number, work: (n: number) => Promise<void>): Promise<void> {
  await Promise.all(
    Array.from({ length: clients }, async (_, client) => {
      for (let n = 0; n < each; n += 1) await work(client * each + n);
    }),
  );
}

async function bareInsert(served: Served, operation: string, end: number, lines: readonly Buffer[]): Promise<void> {
  const numbers = lines.map((_, i) => end - lines.length + i);
  await served.pool.query({
    name: 'bare',
    text: 'INSERT INTO bare SELECT $1, * FROM unnest($2::bigint[], $3::bytea[])',
    values: [operation, numbers, lines],
  });
}

/** Memory of the service at rest, before anything was asked of it, and the most it took. */
export async function memoryRows(idle: number, served: Served): Promise<Row[]> {
  const most = await alone(1, () => Promise.resolve(served.memory().most), 0);
  const resting = spreadOf([idle]);
  const none = { beside: null, peer: null, ratio: null, unit: 'MB' };
  return [
    { ...none, work: "memory of the service's process at rest", ours: resting, aim: '< 150', reached: idle < 150 },
    {
      ...none,
      work: "memory of the service's process, the most during these rows",
      ours: most,
      aim: '< 400',
      reached: most.median < 400,
      remark: "the database's processes are not in it; run from source, with the compiler in the same process",
    },
  ];
}

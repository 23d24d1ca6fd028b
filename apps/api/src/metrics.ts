import { Injectable } from '@nestjs/common';
import { collectDefaultMetrics, Counter, Gauge, Histogram, Registry } from 'prom-client';
import { Replica } from './database/index.ts';
import { DiskRoom } from './disk-room.ts';

/** What the service counts about itself, as Prometheus text. No label tells an operation or a person. */
@Injectable()
export class Metrics {
  readonly #registry = new Registry();
  readonly requests = new Histogram({
    name: 'furrowmark_http_request_seconds',
    help: 'Time from the last byte of a request line to the end of its answer',
    labelNames: ['method', 'status'],
    buckets: [0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10],
    registers: [this.#registry],
  });
  readonly appended = new Counter({
    name: 'furrowmark_records_total',
    help: 'Records sent, by what became of them',
    labelNames: ['status'],
    registers: [this.#registry],
  });
  readonly groups = new Histogram({
    name: 'furrowmark_append_group_records',
    help: 'New entries in one append transaction',
    buckets: [1, 2, 5, 10, 50, 100, 500, 1000, 2000],
    registers: [this.#registry],
  });

  constructor({ counts }: Replica, disk: DiskRoom) {
    collectDefaultMetrics({ register: this.#registry });
    const reads = new Counter({
      name: 'furrowmark_replica_reads_total',
      help: 'Reads of seasons and exports sent to the replica, by whether it answered; the rest went to the database',
      labelNames: ['outcome'],
      registers: [this.#registry],
      collect: () => {
        reads.reset();
        for (const outcome of ['answered', 'failed'] as const) reads.inc({ outcome }, counts[outcome]);
      },
    });
    const bytes = new Gauge({
      name: 'furrowmark_disk_bytes',
      help: 'The disk that the data folder lies on: bytes that are free, and all of them',
      labelNames: ['what'],
      registers: [this.#registry],
      collect: async () => {
        const room = await disk.room().catch(() => null);
        if (room === null) bytes.reset();
        else for (const what of ['free', 'whole'] as const) bytes.set({ what }, room[what]);
      },
    });
  }

  text(): Promise<string> {
    return this.#registry.metrics();
  }
}

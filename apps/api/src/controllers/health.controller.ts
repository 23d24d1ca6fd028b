import { Controller, Get, Header } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { migrated } from '../database/index.ts';
import { ProblemAnswer } from '../http/index.ts';
import { Metrics } from '../metrics.ts';

@Controller()
export class HealthController {
  constructor(
    private readonly dataSource: DataSource,
    private readonly measured: Metrics,
  ) {}

  /** The process answers. */
  @Get('healthz')
  healthz(): object {
    return { status: 'alive' };
  }

  /** The schema is up to date and the database answers: requests may come. */
  @Get('readyz')
  async readyz(): Promise<object> {
    if (await migrated(this.dataSource)) return { status: 'ready' };
    throw new ProblemAnswer('busy', 'The database is not up to date yet.', [], 5);
  }

  @Get('metrics')
  @Header('Content-Type', 'text/plain; version=0.0.4; charset=utf-8')
  metrics(): Promise<string> {
    return this.measured.text();
  }
}

import { Module, type DynamicModule } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Access } from './access/index.ts';
import { Appender } from './append/index.ts';
import { Clock } from './clock.ts';
import { controllers } from './controllers/index.ts';
import { OperationScope } from './database/index.ts';
import { Flood } from './http/flood.guard.ts';
import { LogKey, LogReader } from './log/index.ts';
import { Operations } from './operations.ts';
import { Metrics } from './metrics.ts';
import { PagesModule } from './pages/index.ts';
import { Reports } from './reports/index.ts';
import { BatchList, RecordList, Seasons, Views } from './views/index.ts';

/** What the service is made of and cannot make itself. */
export interface Foundations {
  readonly dataSource: DataSource;
  readonly clock: Clock;
  readonly logKey: LogKey;
}

@Module({})
export class AppModule {
  static on({ dataSource, clock, logKey }: Foundations): DynamicModule {
    return {
      module: AppModule,
      imports: [PagesModule],
      controllers: [...controllers],
      providers: [
        { provide: DataSource, useValue: dataSource },
        { provide: Clock, useValue: clock },
        { provide: LogKey, useValue: logKey },
        OperationScope,
        Access,
        Seasons,
        RecordList,
        BatchList,
        Views,
        Reports,
        LogReader,
        Metrics,
        Flood,
        Appender,
        Operations,
      ],
    };
  }
}

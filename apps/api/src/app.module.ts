import { Module, type DynamicModule } from '@nestjs/common';
import { DataSource } from 'typeorm';
import {
  Access,
  AccountScope,
  Attempts,
  EndedAccess,
  LinkReach,
  LinkUse,
  OwnTokens,
  Pins,
  SignIn,
} from './access/index.ts';
import { AlertChoices, Alerts } from './alerts/index.ts';
import { Appender, Recording } from './append/index.ts';
import { Archives, Imports, KeyChange, Post, Rebuild, Schedule, Witnesses } from './archive/index.ts';
import { Clock } from './clock.ts';
import { controllers } from './controllers/index.ts';
import { OperationScope, Replica } from './database/index.ts';
import { DiskRoom } from './disk-room.ts';
import { DocumentFiles, Documents } from './documents/index.ts';
import { Incoming, Outgoing } from './exchange/index.ts';
import { Invitations, Memberships, Phones, ReadingLinks } from './granting/index.ts';
import { Flood } from './http/flood.guard.ts';
import { throttling } from './http/throttle.ts';
import { LogKey, LogReader, Signing } from './log/index.ts';
import { Operations } from './operations.ts';
import { Metrics } from './metrics.ts';
import { PagesModule } from './pages/index.ts';
import { ReportFiles, ReportJobs, ReportMaker, ReportQueue } from './report-jobs/index.ts';
import { Reports } from './reports/index.ts';
import { Reviews } from './signing/index.ts';
import {
  BatchList,
  Deadlines,
  KeptOutcomes,
  RecordList,
  RuleUpgrades,
  SeasonRoom,
  Seasons,
  Settler,
  Views,
} from './views/index.ts';

/** What the service is made of and cannot make itself. */
export interface Foundations {
  readonly dataSource: DataSource;
  readonly replica: Replica;
  readonly clock: Clock;
  readonly logKey: LogKey;
  readonly documents: DocumentFiles;
  readonly reportFiles: ReportFiles;
  readonly post: Post;
  readonly diskRoom: DiskRoom;
  readonly seasonRoom: SeasonRoom;
}

@Module({})
export class AppModule {
  static on({
    dataSource,
    replica,
    clock,
    logKey,
    documents,
    reportFiles,
    post,
    diskRoom,
    seasonRoom,
  }: Foundations): DynamicModule {
    return {
      module: AppModule,
      imports: [PagesModule, throttling],
      controllers: [...controllers],
      providers: [
        { provide: DataSource, useValue: dataSource },
        { provide: Replica, useValue: replica },
        { provide: Clock, useValue: clock },
        { provide: LogKey, useValue: logKey },
        { provide: Post, useValue: post },
        { provide: DiskRoom, useValue: diskRoom },
        { provide: SeasonRoom, useValue: seasonRoom },
        { provide: DocumentFiles, useValue: documents },
        { provide: ReportFiles, useValue: reportFiles },
        OperationScope,
        ...[AccountScope, Access, Attempts, EndedAccess, SignIn, Pins, OwnTokens, LinkReach],
        ...[Recording, Memberships, Invitations, Phones, ReadingLinks, Reviews, Documents],
        { provide: LinkUse, useExisting: ReadingLinks },
        Seasons,
        RecordList,
        Settler,
        Deadlines,
        KeptOutcomes,
        RuleUpgrades,
        BatchList,
        Views,
        Reports,
        ...[ReportQueue, ReportJobs, ReportMaker],
        ...[Incoming, Outgoing],
        ...[Archives, KeyChange, Imports, Rebuild, Witnesses, Schedule],
        ...[AlertChoices, Alerts],
        Signing,
        LogReader,
        Metrics,
        Flood,
        Appender,
        Operations,
      ],
    };
  }
}

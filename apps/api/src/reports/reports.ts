import { Injectable } from '@nestjs/common';
import { isRefusal, reportKind, type ReportContent, type ReportRefusal } from '@furrowmark/reports';
import { Clock } from '../clock.ts';
import { Seasons } from '../views/index.ts';

/** What was asked for, read from the address. */
export interface ReportRequest {
  readonly kind: string;
  readonly language: 'en' | 'es';
  readonly parameters: Readonly<Record<string, unknown>>;
}

/** Makes reports' content from the records as committed now. */
@Injectable()
export class Reports {
  constructor(
    private readonly seasons: Seasons,
    private readonly clock: Clock,
  ) {}

  /** null where there is no such kind of report. */
  content(
    operationId: string,
    request: ReportRequest,
  ): Promise<{ content: ReportContent; preparedAt: Date } | ReportRefusal | null> {
    const kind = reportKind(request.kind);
    if (kind === undefined) return Promise.resolve(null);
    return this.seasons.read(operationId, ({ season, head }) => {
      const now = this.clock.now();
      const log = { size: head.size, root: head.root.toString('base64') };
      const content = kind.content(season, request.parameters, { now, language: request.language, log });
      return isRefusal(content) ? content : { content, preparedAt: new Date(now) };
    });
  }
}

import { Injectable } from '@nestjs/common';
import { previewImport, type ImportPreview, type ImportRequest } from '@furrowmark/reports';
import { v7 } from 'uuid';
import { Clock } from '../clock.ts';
import { Seasons } from '../views/index.ts';

/** Other people's files, looked at against the operation's records. Nothing is recorded here. */
@Injectable()
export class Incoming {
  constructor(
    private readonly seasons: Seasons,
    private readonly clock: Clock,
  ) {}

  preview(operationId: string, request: ImportRequest): Promise<ImportPreview> {
    const now = this.clock.now();
    return this.seasons.read(operationId, ({ season }) =>
      previewImport(request, { season, operationId, now, newId: () => v7() }),
    );
  }
}

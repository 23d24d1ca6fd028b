import { Injectable } from '@nestjs/common';
import { isRefusal, reportKind, type ReportContent, type ReportRefusal } from '@furrowmark/reports';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { Memberships } from '../granting/index.ts';
import { ProblemAnswer } from '../http/index.ts';
import { checkpointIn, Signing, type Head } from '../log/index.ts';
import { Seasons } from '../views/index.ts';

/** What was asked for, read from the address. */
export interface ReportRequest {
  readonly kind: string;
  readonly language: 'en' | 'es';
  readonly parameters: Readonly<Record<string, unknown>>;
  /** Where the reader reaches the service, for codes to scan. */
  readonly origin?: string | undefined;
}

/** Makes reports' content from the records as committed now. */
@Injectable()
export class Reports {
  constructor(
    private readonly seasons: Seasons,
    private readonly memberships: Memberships,
    private readonly scope: OperationScope,
    private readonly signing: Signing,
    private readonly clock: Clock,
  ) {}

  /** null where there is no such kind of report. */
  async content(
    operationId: string,
    request: ReportRequest,
  ): Promise<{ content: ReportContent; preparedAt: Date } | ReportRefusal | null> {
    const kind = reportKind(request.kind);
    if (kind === undefined) return null;
    const now = this.clock.now();
    const { language, parameters, origin } = request;
    const accounts = await this.#accounts(operationId);
    await this.seasons.fromReplica(operationId);
    const { content, head } = await this.seasons.read(operationId, ({ season, head }) => {
      const log = { size: head.size, root: head.root.toString('base64') };
      const given = { now, language, log, accounts, ...(origin === undefined ? {} : { origin }) };
      return { content: kind.content(season, parameters, given), head };
    });
    if (isRefusal(content)) return content;
    const checkpoint = await this.#signed(operationId, head);
    const log = { ...content.log, ...(checkpoint === null ? {} : { checkpoint }) };
    return { content: { ...content, log }, preparedAt: new Date(now) };
  }

  /** The report as JSON-LD; null where there is no such kind, or it has no such form. */
  async linkedData(operationId: string, request: ReportRequest): Promise<object | ReportRefusal | null> {
    const kind = reportKind(request.kind);
    const { linkedData } = kind ?? {};
    if (linkedData === undefined) return null;
    const now = this.clock.now();
    const accounts = await this.#accounts(operationId);
    await this.seasons.fromReplica(operationId);
    return this.seasons.read(operationId, ({ season, head }) => {
      const log = { size: head.size, root: head.root.toString('base64') };
      return linkedData(season, request.parameters, { now, language: request.language, log, accounts });
    });
  }

  /** Who wrote records, by the ids that stand in them. */
  async #accounts(operationId: string): Promise<ReadonlyMap<string, string>> {
    return new Map((await this.memberships.list(operationId)).map(({ accountId, name }) => [accountId, name]));
  }

  /** The signed checkpoint of the very state that the report was made from; null where it is not signed any more. */
  async #signed(operationId: string, head: Head): Promise<string | null> {
    try {
      const note = await this.scope.run(operationId, (manager) => this.signing.sign(manager, operationId, head));
      return checkpointIn(note).size === head.size ? note : null;
    } catch (error) {
      if (error instanceof ProblemAnswer) return null;
      throw error;
    }
  }
}

import { Injectable } from '@nestjs/common';
import { asOf, instantOf } from '@furrowmark/domain';
import { dueCalendar, fieldMap, type Due, type FieldMap } from '@furrowmark/reports';
import { dueIn } from '@furrowmark/rules';
import { Clock } from '../clock.ts';
import { Deadlines, Seasons } from '../views/index.ts';

/** What other people's programs can take: fields for a map, deadlines for a calendar. */
@Injectable()
export class Outgoing {
  constructor(
    private readonly seasons: Seasons,
    private readonly deadlines: Deadlines,
    private readonly clock: Clock,
  ) {}

  fields(
    operationId: string,
    days: { readonly from?: string | undefined; readonly to?: string | undefined },
  ): Promise<FieldMap> {
    const now = this.clock.now();
    return this.seasons.read(operationId, ({ season }) => fieldMap(season, { now }, days));
  }

  async calendar(operationId: string, language: 'en' | 'es'): Promise<string> {
    const standing = await this.deadlines.list(operationId);
    const now = this.clock.now();
    const operation = await this.seasons.read(operationId, ({ season }) =>
      season.operation === null ? '' : asOf(season.operation, now).name,
    );
    const met = new Map<string, number>();
    const due = standing.map(({ findingId, dueAt, about, what }): Due => {
      const count = (met.get(findingId) ?? 0) + 1;
      met.set(findingId, count);
      return {
        id: count === 1 ? findingId : `${findingId}-${count}`,
        at: instantOf(dueAt),
        about: about.code,
        what: dueIn(what, language),
      };
    });
    return dueCalendar(due, { now, operation, language });
  }
}

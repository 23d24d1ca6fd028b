import { Injectable } from '@nestjs/common';
import { batchView, timeline, trace, utcText, type Draft, type Trace, type TraceRoot } from '@furrowmark/domain';
import {
  checkDrafts,
  findings,
  judgeBatch,
  nextDue,
  previewRuleBook,
  ruleBookView,
  type BookEntry,
  type Comparison,
  type Finding,
  type NextDue,
  type Outcome,
  type RuleBookView,
} from '@furrowmark/rules';
import { Clock } from '../clock.ts';
import { seenFrom, type Viewpoint } from './as-of.ts';
import { Seasons } from './seasons.ts';

/** How long judged findings are used again while no record comes (milliseconds). */
const findingsLife = 15_000;

/** What follows from an operation's records, judged when asked for. */
@Injectable()
export class Views {
  constructor(
    private readonly seasons: Seasons,
    private readonly clock: Clock,
  ) {}

  /** A batch: facts, outcomes, what is due, everything recorded of it. null where no record speaks of it. */
  batch(operationId: string, batchId: string, viewpoint: Viewpoint) {
    return this.seasons.read(operationId, (reading) => {
      const { season, asOfSeq } = seenFrom(reading, viewpoint);
      const batch = season.batch(batchId);
      if (batch === undefined) return null;
      const now = viewpoint.at ?? this.clock.now();
      const { id, code, kind, phase } = batch;
      return {
        batchId: id,
        code,
        kind,
        phase,
        asOfSeq,
        facts: batchView(batch),
        outcomes: judgeBatch(season, id, now).map(outcomeJson),
        nextDue: dueJson(nextDue(season, id, now)),
        timeline: timeline(season, batch),
      };
    });
  }

  /** Every finding, the oldest first. */
  findings(operationId: string): Promise<{ findings: readonly Finding[]; timeZone: string; asOfSeq: number }> {
    return this.seasons.read(operationId, ({ season, kept }) => {
      const now = this.clock.now();
      const found = kept('findings', now, findingsLife, () => findings(season, now));
      return { findings: found, timeZone: season.timeZone, asOfSeq: season.size - 1 };
    });
  }

  ruleBook(operationId: string, at: number | undefined): Promise<RuleBookView> {
    return this.seasons.read(operationId, ({ season }) => ruleBookView(season, at ?? this.clock.now()));
  }

  previewRuleBook(
    operationId: string,
    entries: readonly BookEntry[],
    range: { readonly from?: number; readonly to?: number },
  ): Promise<Comparison> {
    return this.seasons.read(operationId, ({ season }) => previewRuleBook(season, entries, range, this.clock.now()));
  }

  /** What these records would break or come near, were they recorded now. */
  check(operationId: string, drafts: readonly Draft[]): Promise<{ outcomes: object[]; asOfSeq: number }> {
    return this.seasons.read(operationId, ({ season }) => ({
      outcomes: checkDrafts(season, drafts, this.clock.now()).map(outcomeJson),
      asOfSeq: season.size - 1,
    }));
  }

  /** Where something went or came from; null where no record speaks of it. */
  trace(
    operationId: string,
    root: TraceRoot,
    direction: 'forward' | 'backward',
  ): Promise<(Trace & { asOfSeq: number }) | null> {
    return this.seasons.read(operationId, ({ season }) => {
      const traced = trace(season, root, direction);
      return traced && { ...traced, asOfSeq: season.size - 1 };
    });
  }

  /** The zone whose days a question means. */
  timeZone(operationId: string): Promise<string> {
    return this.seasons.read(operationId, ({ season }) => season.timeZone);
  }
}

/** An outcome as JSON: its deadline as RFC 3339. */
export function outcomeJson({ dueAt, ...outcome }: Outcome): object {
  return dueAt === undefined ? outcome : { ...outcome, dueAt: utcText(dueAt) };
}

export function dueJson(next: NextDue | null): object | null {
  return next === null ? null : { ruleId: next.ruleId, at: utcText(next.at), what: next.what };
}

import { Injectable } from '@nestjs/common';
import {
  batchView,
  planBrews,
  timeline,
  trace,
  type BrewPlan,
  type Draft,
  type PlanRequest,
  type Trace,
  type TraceRoot,
} from '@furrowmark/domain';
import {
  checkDrafts,
  findings,
  judgeAsSigned,
  judgeWithDue,
  notSwitchedOn,
  previewRuleBook,
  reviewsOf,
  ruleBookView,
  starterEntries,
  starterRuleIds,
  type BookEntry,
  type Comparison,
  type Finding,
  type Language,
  type Outcome,
  type RuleBookView,
} from '@furrowmark/rules';
import { Clock } from '../clock.ts';
import type { ProblemDetail } from '../http/index.ts';
import { seenFrom, type Viewpoint } from './as-of.ts';
import { dueJson, outcomeJson } from './json.ts';
import { kitOf } from './kit.ts';
import { planFacts } from './plan-facts.ts';
import { Seasons } from './seasons.ts';

/** How long judged findings are used again while no record comes (milliseconds). */
const findingsLife = 15_000;

/** Phases in which a tank holds tea or water. */
const inUse: ReadonlySet<string> = new Set(['filled', 'aerating', 'brewing', 'holding']);

/** What follows from an operation's records, judged when asked for. */
@Injectable()
export class Views {
  constructor(
    private readonly seasons: Seasons,
    private readonly clock: Clock,
  ) {}

  /**
   * A batch: facts, outcomes, what is due, everything recorded of it, and its signatures, `asSigned` with the outcomes that
   * were signed. null where no record speaks of it.
   */
  batch(
    operationId: string,
    batchId: string,
    { asSigned = false, language, ...viewpoint }: Viewpoint & { asSigned?: boolean; language?: Language },
  ) {
    return this.seasons.read(operationId, (reading) => {
      const { season, asOfSeq } = seenFrom(reading, viewpoint);
      const batch = season.batch(batchId);
      if (batch === undefined) return null;
      const now = viewpoint.at ?? this.clock.now();
      const { id, code, kind, phase } = batch;
      const { outcomes, nextDue } = judgeWithDue(season, id, now);
      const told = (outcomes: readonly Outcome[]) => outcomes.map((outcome) => outcomeJson(outcome, language));
      return {
        batchId: id,
        code,
        kind,
        phase,
        asOfSeq,
        facts: batchView(batch),
        outcomes: told(outcomes),
        nextDue: dueJson(nextDue),
        timeline: timeline(season, batch),
        reviews: reviewsOf(batch).map((review) =>
          asSigned ? { ...review, outcomes: told(judgeAsSigned(season, id, review.recordId)) } : review,
        ),
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

  /** What a new operation may begin with, and what the book in force leaves out. */
  starterBook(operationId: string): Promise<object> {
    return this.seasons.read(operationId, ({ season }) => ({
      ruleIds: starterRuleIds,
      entries: starterEntries(),
      notSwitchedOn: notSwitchedOn(season, this.clock.now()),
    }));
  }

  previewRuleBook(
    operationId: string,
    entries: readonly BookEntry[],
    range: { readonly from?: number; readonly to?: number },
  ): Promise<Comparison> {
    return this.seasons.read(operationId, ({ season }) => previewRuleBook(season, entries, range, this.clock.now()));
  }

  /** What these records would break or come near, were they recorded now. */
  check(
    operationId: string,
    drafts: readonly Draft[],
    language?: Language,
  ): Promise<{ outcomes: object[]; asOfSeq: number }> {
    return this.seasons.read(operationId, ({ season }) => ({
      outcomes: checkDrafts(season, drafts, this.clock.now()).map((outcome) => outcomeJson(outcome, language)),
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

  /** Brews planned backwards from the spray window; nothing is recorded. */
  plan(operationId: string, request: PlanRequest): Promise<BrewPlan | { errors: readonly ProblemDetail[] }> {
    return this.seasons.read(operationId, ({ season }) => {
      const facts = planFacts(season, request, this.clock.now());
      if ('errors' in facts) return facts;
      const plan = planBrews(facts);
      if ('refused' in plan) return { errors: plan.refused.errors };
      const busy = request.vessels.flatMap((id) => season.batchesIn(id)).filter(({ phase }) => inUse.has(phase));
      const warnings = busy.map(
        ({ code }) => `${code} is still in a tank that this plan uses: empty and clean it first.`,
      );
      return { ...plan, warnings: [...plan.warnings, ...warnings] };
    });
  }

  /** What a phone needs to work without reception. */
  kit(operationId: string): Promise<object> {
    return this.seasons.read(operationId, ({ season }) => kitOf(season, this.clock.now()));
  }

  /** The zone whose days a question means. */
  timeZone(operationId: string): Promise<string> {
    return this.seasons.read(operationId, ({ season }) => season.timeZone);
  }
}

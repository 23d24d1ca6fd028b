import { zoneText } from '../clock/text.ts';
import type { Batch } from '@furrowmark/domain';
import { alertFacts } from '../alerts/facts.ts';
import type { LocalSeason } from '../season/local.ts';
import { tanksNow } from '../tank/model.ts';
import type { Asked, BatchLine, Kind, Marks, Questions } from './questions.ts';

type Answers = { readonly [K in Kind]: (local: LocalSeason, ask: Questions[K]['ask']) => Questions[K]['answer'] };

/** How each question is answered from the season. */
const answers: Answers = {
  tanks: ({ engine, season }, { now }) => tanksNow(engine, season, now),
  batches: (local) => ({
    zone: local.season.timeZone,
    lines: local.season
      .batches()
      .map((batch) => lineOf(local, batch))
      .sort((a, b) => b.startedAt - a.startedAt),
  }),
  marks: ({ engine, season }, { batchIds, now }) =>
    batchIds.map((batchId): Marks => {
      const outcomes = engine.rules.judgeBatch(season, batchId, now);
      const count = (verdict: string): number => outcomes.filter(({ outcome }) => outcome === verdict).length;
      return { batchId, broken: count('broken'), caution: count('caution'), unknown: count('unknown') };
    }),
  judge: ({ engine, season }, { batchId, now, knownAt }) => {
    if (knownAt === null) return engine.rules.judgeBatch(season, batchId, now);
    const known = [...season.written()].filter(({ recordedAt }) => Date.parse(recordedAt) <= knownAt);
    return engine.rules.judgeBatch(engine.domain.openSeason(known), batchId, now);
  },
  check: ({ engine, season }, { drafts, now }) => {
    const parsed = drafts.map((draft) => engine.domain.parseDraft(draft, { now }));
    const good = parsed.flatMap((each) => (each.ok ? [each.draft] : []));
    return good.length < parsed.length ? null : engine.rules.checkDrafts(season, good, now);
  },
  alerts: ({ engine, season }, { now }) => alertFacts(engine, season, now),
  findings: ({ engine, season }, { now }) => engine.rules.findings(season, now),
  zone: ({ season }, { at, language }) => zoneText(at, season.timeZone, language),
};

export function answerTo(local: LocalSeason, question: Asked): unknown {
  switch (question.kind) {
    case 'tanks':
      return answers.tanks(local, question.ask);
    case 'batches':
      return answers.batches(local, question.ask);
    case 'marks':
      return answers.marks(local, question.ask);
    case 'judge':
      return answers.judge(local, question.ask);
    case 'check':
      return answers.check(local, question.ask);
    case 'alerts':
      return answers.alerts(local, question.ask);
    case 'findings':
      return answers.findings(local, question.ask);
    case 'zone':
      return answers.zone(local, question.ask);
  }
}

function lineOf({ season }: LocalSeason, batch: Batch): BatchLine {
  const vessel = batch.vesselId === null ? undefined : season.vessel(batch.vesselId);
  const fields = season
    .applicationsOf(batch.id)
    .flatMap(({ targets }) =>
      targets.map(({ fieldId }) => (fieldId === undefined ? '' : (season.field(fieldId)?.registered.code ?? ''))),
    );
  return {
    ...{ batchId: batch.id, code: batch.code, phase: batch.phase, closed: batch.closed !== null },
    startedAt: batch.opened?.at.at ?? batch.records[0]?.at.at ?? 0,
    vesselCode: vessel?.registered.code ?? '',
    fields: [...new Set(fields)].filter((code) => code !== ''),
  };
}

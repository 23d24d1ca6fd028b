import type { Season } from '@furrowmark/domain';
import type { Engine } from '../season/engine.ts';
import type { FormId } from '../tank/forms/ids.ts';
import { answering, expected } from '../tank/next.ts';

interface AtTank {
  readonly findingId: string;
  readonly ruleId: string;
  readonly batchId: string;
  readonly code: string;
  readonly vesselCode: string;
}

/** What there is to be told of at the tanks. */
export interface AlertFacts {
  readonly zone: string;
  readonly due: readonly (AtTank & {
    readonly at: number;
    readonly form: FormId;
    readonly side: 'from' | 'by';
  })[];
  readonly broken: readonly (AtTank & { readonly title: string })[];
  /** What is expected next at each tank, whether or not a time is set for it. */
  readonly expected: readonly { readonly batchId: string; readonly forms: readonly FormId[] }[];
}

const open: ReadonlySet<string> = new Set(['open', 'filled', 'aerating', 'brewing', 'holding']);

/** What is due at the tanks that are in use, and what is broken there. */
export function alertFacts(engine: Engine, season: Season, now: number): AlertFacts {
  const { rules, domain } = engine;
  const batches = season.batches().filter(({ phase }) => open.has(phase));
  const at = batches.map((batch) => {
    const vessel = batch.vesselId === null ? undefined : season.vessel(batch.vesselId);
    const vesselCode = vessel === undefined ? '' : domain.asOf(vessel, now).code;
    return { batchId: batch.id, code: batch.code, vesselCode };
  });
  return {
    zone: season.timeZone,
    due: at.flatMap((tank) =>
      rules.tankDeadlines(season, tank.batchId, now).flatMap(({ findingId, ruleId, at, what }) => {
        const answer = answering(what);
        return answer === undefined ? [] : [{ ...tank, findingId, ruleId, at, ...answer }];
      }),
    ),
    expected: batches.map((batch) => ({
      batchId: batch.id,
      forms: expected(engine, season, batch, now).map(({ form }) => form),
    })),
    broken: at.flatMap((tank) =>
      rules
        .judgeBatch(season, tank.batchId, now)
        .filter(({ outcome }) => outcome === 'broken')
        .map(({ findingId, ruleId, title }) => ({ ...tank, findingId, ruleId, title })),
    ),
  };
}

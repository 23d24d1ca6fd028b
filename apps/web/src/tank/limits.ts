import type { Batch, Season } from '@furrowmark/domain';
import type { Engine } from '../season/engine.ts';

const hour = 3_600_000;
const minute = 60_000;

export type LimitName =
  | 'foodAdvised'
  | 'foodLeast'
  | 'brewLeast'
  | 'brewAdvised'
  | 'brewMostAdvised'
  | 'brewMost'
  | 'holdAdvised'
  | 'holdMost';

/** A moment at which the rule book has something to say of this brew. */
export interface Limit {
  readonly at: number;
  readonly name: LimitName;
  /** `from`: from then on; `by`: until then. */
  readonly side: 'from' | 'by';
  readonly advised: boolean;
  readonly ruleId: string;
}

/** A rule's figures as the book in force at that moment has them; null where it is switched off. */
export function parametersAt(
  engine: Engine,
  season: Season,
  ruleId: string,
  at: number,
): Readonly<Record<string, number>> | null {
  const rule = engine.rules.ruleById(ruleId);
  const limits = rule?.limitsIn(engine.rules.ruleBookOf(season), at);
  return limits?.enabled === true ? limits.parameters : null;
}

/** The brew's limits as clock times, in order of time. */
export function limitsOf(engine: Engine, season: Season, batch: Batch): readonly Limit[] {
  const found: Limit[] = [];
  const add = (name: LimitName, side: Limit['side'], ruleId: string, advised: boolean, at: number): void => {
    if (Number.isFinite(at)) found.push({ name, side, ruleId, advised, at });
  };
  const filled = batch.fills.at(-1)?.finished.at;
  const air = batch.airStarts.at(-1)?.at.at;
  if (batch.brewStart === null && air !== undefined && batch.airOff === null) {
    const from = Math.max(air, filled ?? air);
    const chlorine = parametersAt(engine, season, 'chlorine-dissipated', from);
    const chlorinated = batch.fills.some(
      ({ disinfectant }) => disinfectant === 'chlorine' || disinfectant === 'unknown',
    );
    if (chlorine !== null && chlorinated) {
      add('foodLeast', 'from', 'chlorine-dissipated', false, from + (chlorine['limitMinutes'] ?? NaN) * minute);
      add('foodAdvised', 'from', 'chlorine-dissipated', true, from + (chlorine['advisedMinutes'] ?? NaN) * minute);
    }
  }
  const topUp = batch.topUps.at(-1)?.at.at ?? -Infinity;
  const since = batch.brewStart === null ? null : Math.max(batch.brewStart.at, topUp);
  if (since !== null && batch.kind !== 'extract') {
    const least = parametersAt(engine, season, 'brew-minimum', since);
    if (least !== null) {
      add('brewLeast', 'from', 'brew-minimum', false, since + (least['limitHours'] ?? NaN) * hour);
      add('brewAdvised', 'from', 'brew-minimum', true, since + (least['advisedHours'] ?? NaN) * hour);
    }
    const most = parametersAt(engine, season, 'brew-maximum', since);
    const food = batch.ingredients.some(({ microbialFood }) => microbialFood !== false);
    if (most !== null) {
      const [advised, limit] = food
        ? [most['withFoodAdvisedHours'], most['withFoodLimitHours']]
        : [most['withoutFoodAdvisedHours'], most['withoutFoodLimitHours']];
      add('brewMostAdvised', 'by', 'brew-maximum', true, since + (advised ?? NaN) * hour);
      add('brewMost', 'by', 'brew-maximum', false, since + (limit ?? NaN) * hour);
    }
  }
  if (batch.airOff !== null && batch.brewStart !== null) {
    const hold = parametersAt(engine, season, 'hold-maximum', batch.airOff.at);
    if (hold !== null) {
      add('holdAdvised', 'by', 'hold-maximum', true, batch.airOff.at + (hold['advisedHours'] ?? NaN) * hour);
      add('holdMost', 'by', 'hold-maximum', false, batch.airOff.at + (hold['limitHours'] ?? NaN) * hour);
    }
  }
  return found.sort((a, b) => a.at - b.at);
}

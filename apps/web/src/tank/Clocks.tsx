import { spanText, together, whenText } from '../clock/text.ts';
import { quantityText, roundText } from '../quantity/text.ts';
import type { Limit } from './limits.ts';
import type { Tank } from './model.ts';
import { RuleHelp } from './RuleHelp.tsx';
import { useTankWords } from './useTank.ts';

interface Props {
  readonly tank: Tank;
  readonly now: number;
  readonly zone: string;
  /** Offers the reason and source of each limit. */
  readonly withReasons?: boolean;
}

/** The clock that counts in this phase, large, and what the rule book says of it as clock times. */
export function Clocks({ tank, now, zone, withReasons = false }: Props) {
  const { w, language } = useTankWords();
  const counted = tank.counting;
  const at = (instant: number): string => whenText(instant, zone, language, now);
  return (
    <div className="clocks">
      {counted !== null && (
        <p className="clock">
          <span className="clock-label">{w[counted.label]}</span>{' '}
          <strong className="clock-figure">{spanText(now - counted.from)}</strong>
        </p>
      )}
      <ul className="clock-limits">
        {relevant(tank, now).map((limit) => {
          const text = w[`limit_${limit.name}`](at(limit.at));
          const over = limit.side === 'by' && limit.at < now;
          return (
            <li key={limit.name} className={over ? 'over' : undefined}>
              <span>
                {limit.at <= now ? w.passed(text) : `${text} · ${w.inSpan(together(spanText(limit.at - now)))}`}
              </span>
              {withReasons && <RuleHelp ruleId={limit.ruleId} />}
            </li>
          );
        })}
      </ul>
    </div>
  );
}

/** Oxygen: the last reading, and after air off when it is expected at the limit. */
export function OxygenLine({ tank, now, zone }: Props) {
  const { w, language } = useTankWords();
  const at = (instant: number): string => whenText(instant, zone, language, now);
  const { forecast, oxygen, oxygenLimit } = tank;
  return (
    <div className="oxygen-line">
      <p>{oxygen === null ? w.oxygenNone : w.oxygenLast(quantityText(oxygen.written, language), at(oxygen.at))}</p>
      {forecast?.kind === 'forecast' && oxygenLimit !== null && (
        <p className="forecast">
          {w.forecast(roundText(oxygenLimit, language), at(forecast.reachesLimitAt))},{' '}
          {w.forecastRange(at(forecast.interval.from), at(forecast.interval.to))}.{' '}
          <span className="faint">{w.forecastCaution}</span>
        </p>
      )}
    </div>
  );
}

/** In each phase its own limits, and of brewing the next two. */
function relevant({ phase, limits }: Tank, now: number): readonly Limit[] {
  switch (phase) {
    case 'aerating':
      return limits.filter(({ name }) => name.startsWith('food'));
    case 'brewing': {
      const ahead = limits.filter(({ at }) => at > now);
      return ahead.length > 0 ? ahead.slice(0, 2) : limits.slice(-1);
    }
    case 'holding':
      return limits.filter(({ name }) => name.startsWith('hold')).reverse();
    default:
      return [];
  }
}

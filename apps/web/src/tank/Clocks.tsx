import { spanText, whenText } from '../clock/text.ts';
import { quantityText, roundText } from '../quantity/text.ts';
import type { Engine } from '../season/engine.ts';
import type { Limit } from './limits.ts';
import type { Tank } from './model.ts';
import { RuleHelp } from './RuleHelp.tsx';
import { useTankWords } from './useTank.ts';

interface Props {
  readonly tank: Tank;
  readonly now: number;
  readonly zone: string;
  /** Offers the reason and source of each limit. */
  readonly engine?: Engine;
}

/** The clock that counts in this phase, large, and what the rule book says of it as clock times. */
export function Clocks({ tank, now, zone, engine }: Props) {
  const { w, language } = useTankWords();
  const counted = counting(tank);
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
              <span>{limit.at <= now ? w.passed(text) : `${text} · ${w.inSpan(spanText(limit.at - now))}`}</span>
              {engine !== undefined && <RuleHelp engine={engine} ruleId={limit.ruleId} />}
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
  const last = tank.batch.oxygen.at(-1);
  const record = tank.batch.records.find(({ id }) => id === last?.recordId);
  const written = record?.type === 'batch.oxygenMeasured' ? record.data.dissolvedOxygen : null;
  const { forecast, oxygenLimit } = tank;
  return (
    <div className="oxygen-line">
      <p>
        {last === undefined || written === null
          ? w.oxygenNone
          : w.oxygenLast(quantityText(written, language), at(last.at.at))}
      </p>
      {forecast?.kind === 'forecast' && oxygenLimit !== null && (
        <p className="forecast">
          {w.forecast(roundText(oxygenLimit, language), at(forecast.reachesLimitAt))},{' '}
          {w.forecastRange(at(forecast.interval.from), at(forecast.interval.to))}.{' '}
          <span className="faint">{w.forecastCaution}</span>
        </p>
      )}
      {forecast?.kind === 'undetermined' && <p className="faint">{w.forecastNone}</p>}
    </div>
  );
}

function counting({
  batch,
}: Tank): { label: 'clockAir' | 'clockBrew' | 'clockHold' | 'clockFilled' | 'clockOpened'; from: number } | null {
  switch (batch.phase) {
    case 'open':
      return batch.opened === null ? null : { label: 'clockOpened', from: batch.opened.at.at };
    case 'filled':
      return { label: 'clockFilled', from: batch.fills.at(-1)?.finished.at ?? 0 };
    case 'aerating': {
      const air = batch.airStarts.at(-1)?.at.at ?? 0;
      return { label: 'clockAir', from: Math.max(air, batch.fills.at(-1)?.finished.at ?? air) };
    }
    case 'brewing':
      return batch.brewStart === null
        ? null
        : { label: 'clockBrew', from: Math.max(batch.brewStart.at, batch.topUps.at(-1)?.at.at ?? 0) };
    case 'holding':
      return batch.airOff === null ? null : { label: 'clockHold', from: batch.airOff.at };
    default:
      return null;
  }
}

/** In each phase its own limits, and of brewing the next two. */
function relevant({ batch, limits }: Tank, now: number): readonly Limit[] {
  switch (batch.phase) {
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

import { pressureAtElevation, saturationMgPerL } from '../calc/oxygenSaturation.ts';
import { asOf } from '../facts/asOf.ts';
import type { OxygenReading } from '../facts/types.ts';
import { milligramsPerLitre, numberIn } from '../quantity/convert.ts';
import type { Registers } from './registers.ts';
import type { Store } from './store.ts';

/** One reading of dissolved oxygen; undefined where its unit is no concentration (it stays among the batch's records). */
export function oxygenViews(store: Store, { operation }: Registers) {
  return store.memo.view('oxygen', (recordId): OxygenReading | undefined => {
    const record = store.record(recordId);
    if (record?.type !== 'batch.oxygenMeasured') return undefined;
    const { dissolvedOxygen, temperature, instrumentId } = record.data;
    const mgPerL = milligramsPerLitre(dissolvedOxygen)?.toNumber();
    if (mgPerL === undefined) return undefined;
    const temperatureC = temperature === undefined ? null : numberIn(temperature, 'Cel');
    const known = operation();
    const elevation = known === null ? undefined : asOf(known, record.at.at).elevation;
    const metres = elevation === undefined ? 0 : (numberIn(elevation, 'm') ?? 0);
    return {
      recordId: record.id,
      at: record.at,
      mgPerL,
      qualifier: dissolvedOxygen.qualifier,
      temperatureC,
      saturationPercent: temperatureC === null ? null : saturationPercent(mgPerL, temperatureC, metres),
      instrumentId,
    };
  });
}

/** null outside 0–45 °C, where the equations of saturation say nothing. */
function saturationPercent(mgPerL: number, celsius: number, metres: number): number | null {
  if (celsius < 0 || celsius > 45) return null;
  return (100 * mgPerL) / saturationMgPerL(celsius, pressureAtElevation(metres));
}

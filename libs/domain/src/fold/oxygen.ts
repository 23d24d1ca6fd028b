import type { OxygenReading } from '../facts/types.ts';
import { milligramsPerLitre, numberIn } from '../quantity/convert.ts';
import type { CurrentRecord } from '../records/record.ts';
import type { Registers } from './registers.ts';

/** Readings of dissolved oxygen; one whose unit is no concentration is left out (it stays among the batch's records). */
export function oxygenReadings(
  records: readonly CurrentRecord<'batch.oxygenMeasured'>[],
  _registers: Registers,
): OxygenReading[] {
  return records.flatMap((record): OxygenReading[] => {
    const { dissolvedOxygen, temperature, instrumentId } = record.data;
    const mgPerL = milligramsPerLitre(dissolvedOxygen)?.toNumber();
    if (mgPerL === undefined) return [];
    const temperatureC = temperature === undefined ? null : numberIn(temperature, 'Cel');
    return [
      {
        recordId: record.id,
        at: record.at,
        mgPerL,
        ...(dissolvedOxygen.qualifier === undefined ? {} : { qualifier: dissolvedOxygen.qualifier }),
        temperatureC,
        saturationPercent: null,
        instrumentId,
      },
    ];
  });
}

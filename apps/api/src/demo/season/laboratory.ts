import { cfu } from './amounts.ts';
import type { Stamp } from './calendar.ts';
import type { Farm } from './farm.ts';

/** A sample from the rig at the draw, and what the county laboratory found. */
export function laboratory(
  { diary, people }: Farm,
  batchId: string,
  at: Stamp,
  reported: Stamp,
  coli: number,
  cocci: number,
): void {
  const sampleId = diary.newId();
  diary.write('batch.sampled', at, { batchId, sampleId, takenFrom: 'drench rig' }, { performedBy: people.ines });
  const results = [
    { analyte: 'E. coli', value: cfu(coli) },
    { analyte: 'enterococci', value: cfu(cocci) },
  ];
  diary.write(
    'batch.analysed',
    reported,
    { batchId, sampleId, laboratory: 'county laboratory', results },
    { by: 'reviewer' },
  );
}

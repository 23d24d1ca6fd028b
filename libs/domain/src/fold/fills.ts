import { asOf } from '../facts/asOf.ts';
import type { Moment } from '../facts/time.ts';
import type { Fill } from '../facts/types.ts';
import type { CurrentRecord } from '../records/record.ts';
import { type AirChange, airBetween } from './air.ts';
import { earlier, within } from './moments.ts';
import type { Registers } from './registers.ts';
import type { Stock } from './stock.ts';
import type { TankHistory } from './tank.ts';

export type FillFacts = Fill & { readonly shareOfBefore: number };

/** Each fill, with what its water was disinfected with on that day and what part of the tank it came to be. */
export function fillFacts(
  records: readonly CurrentRecord<'batch.filled'>[],
  tank: TankHistory,
  brewStart: Moment | null,
  air: readonly AirChange[],
  { sourceItself }: Registers,
  stock: Stock,
): FillFacts[] {
  const fills = records.map((record): FillFacts => {
    const finished = within(record, record.data.finishedAt);
    const litres = stock.litres(record.data.volume, finished);
    const step = tank.content.find((each) => each.recordId === record.id);
    const known = sourceItself(record.data.sourceId);
    const onto = brewStart !== null && finished.at > brewStart.at;
    return {
      recordId: record.id,
      sourceId: record.data.sourceId,
      started: earlier(record.at, finished),
      finished,
      litres,
      quantity: record.data.volume,
      disinfectant: known === undefined ? 'unknown' : asOf(known, finished.at).disinfectant,
      shareOfContent: !litres || !step?.litres || step.litres.isZero() ? 1 : litres.div(step.litres).toNumber(),
      shareOfBefore: !litres || !step?.before || step.before.isZero() ? 1 : litres.div(step.before).toNumber(),
      ontoLivingTea: onto,
      airMinutes: brewStart === null || onto ? null : airBetween(air, finished, brewStart),
    };
  });
  return fills.sort((a, b) => a.finished.at - b.finished.at);
}

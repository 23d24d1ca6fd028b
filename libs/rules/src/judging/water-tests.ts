import { daysBetween, instantOf, type CurrentRecord, type Season, type Source } from '@furrowmark/domain';
import { coliOf, type Coli } from './coli.ts';
import { coversDay, dayOf } from './water.ts';

/** What is known about E. coli in a source on one day. */
export interface WaterOnDay {
  /**
   * `reopened`: the last sample before was good, the next one after was not, so the day between is in question.
   * `expired`: tested once, too long ago. `report`: the utility's report stands for a municipal source.
   */
  readonly state: 'good' | 'report' | 'bad' | 'reopened' | 'expired' | 'untested' | 'pending' | 'cannotTell';
  readonly test?: CurrentRecord<'source.tested'>;
  readonly ageDays?: number;
  readonly recordIds: readonly string[];
}

interface Sample {
  readonly test: CurrentRecord<'source.tested'>;
  readonly sampled: number;
  readonly coli: Coli;
}

/** Samples in order of sampling; a pending one is dropped once a result of the same sampling is there. */
function samplesOf(source: Source): readonly Sample[] {
  const all = source.tests.flatMap((test): Sample[] => {
    const coli = coliOf(test);
    return coli === null ? [] : [{ test, sampled: instantOf(test.data.sampledAt), coli }];
  });
  return all
    .filter(
      (sample) =>
        sample.coli !== 'pending' || !all.some((other) => other.coli !== 'pending' && other.sampled === sample.sampled),
    )
    .sort((a, b) => a.sampled - b.sampled);
}

/** The source's samples against the instant of a fill. A sample of the same day counts as taken before it. */
export function waterOn(season: Season, source: Source, kind: string, at: number, validDays: number): WaterOnDay {
  const day = dayOf(season, at);
  const samples = samplesOf(source);
  const onDay = (sample: Sample): string => dayOf(season, sample.sampled);
  const before = samples.filter((sample) => sample.sampled <= at || onDay(sample) === day);
  const last = before.findLast((sample) => sample.coli !== 'pending');
  const pending = before.findLast((sample) => sample.coli === 'pending');
  const of = (state: WaterOnDay['state'], sample?: Sample): WaterOnDay => ({
    state,
    recordIds: sample === undefined ? [] : [sample.test.id],
    ...(sample === undefined ? {} : { test: sample.test, ageDays: daysBetween(onDay(sample), day) }),
  });
  if (last?.coli === 'detected') return of('bad', last);
  const next = samples.find((sample) => !before.includes(sample) && sample.coli !== 'pending');
  if (next?.coli === 'detected') return of('reopened', next);
  if (last?.coli === 'notDetected' && daysBetween(onDay(last), day) <= validDays) return of('good', last);
  const report = source.documents.find(
    ({ data }) => data.covers === 'utilityReport' && coversDay(data, day, validDays),
  );
  if (kind === 'municipal' && report !== undefined) return { state: 'report', recordIds: [report.id] };
  if (pending !== undefined) return of('pending', pending);
  if (last === undefined) return of('untested');
  return last.coli === 'cannotTell' ? of('cannotTell', last) : of('expired', last);
}

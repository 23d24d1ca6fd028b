import { openSeason, recordFromLog, type LogRecord, type OpenSeason } from '@furrowmark/domain';
import { catalogue, judgeBatch, previewRuleBook } from '@furrowmark/rules';
import { id, SeasonBuilder } from '../../../libs/rules/src/testing/season.ts';
import { alone, spreadOf, timed, type Extent, type Row } from '../measure.ts';
import { longLog } from '../records.ts';

const now = Date.parse('2040-01-01T00:00:00Z');
const minute = 60_000;
const none = { beside: null, peer: null, ratio: null };

/** Judging, with every rule of the catalogue switched on. */
export async function judgingRows({ mode, rounds }: Extent): Promise<Row[]> {
  const [some, many] = mode === 'quick' ? [20, 40] : [1_000, 10_000];
  const season = withEverything(some);
  const ids = season.batches().map(({ id }) => id);
  for (const id of ids) judgeBatch(season, id, now);
  const single = await alone(rounds, async (round) => {
    // At another time each round: what waits for the clock is not taken from before.
    const took: number[] = [];
    for (const id of ids.slice(0, 200)) took.push(await timed(() => judgeBatch(season, id, now + round * minute)));
    return spreadOf(took).median;
  });
  const entries = [{ ruleId: 'hold-maximum', enabled: false }];
  const preview = await alone(rounds, (round) =>
    timed(() => previewRuleBook(season, entries, {}, now + round * minute)),
  );
  const large = withEverything(many);
  const judgeAll = (round: number): Promise<number> =>
    timed(() => {
      for (const { id } of large.batches()) judgeBatch(large, id, now + round * minute);
    });
  const first = await judgeAll(0);
  // Each time after a rule book was adopted that reaches back over every batch.
  const all = await alone(
    Math.min(rounds, 3),
    (round) => {
      const adopted = adopting(`1990-01-0${String(round + 2)}`);
      large.add(adopted.map((record) => ({ ...record, seq: large.size })));
      return judgeAll(round + 1);
    },
    0,
  );
  return [
    {
      ...none,
      work: `judge a batch by all ${catalogue.length} rules, among ${some}`,
      unit: 'ms',
      ours: single,
      aim: '< 1',
      reached: single.median < 1,
    },
    {
      ...none,
      work: `${many} batches judged again after a rule book was adopted`,
      unit: 'ms',
      ours: all,
      aim: '< 10,000',
      reached: all.most < 10_000,
      remark: `the first time, with nothing folded yet: ${Math.round(first).toLocaleString('en-US')} ms; here the most counts`,
    },
    {
      ...none,
      work: `preview of a rule book over ${some} batches`,
      unit: 'ms',
      ours: preview,
      aim: '< 1,000',
      reached: preview.median < 1_000,
    },
  ];
}

/** The record of a rule book with every rule, adopted and in force from a day. */
function adopting(day: string): readonly LogRecord[] {
  const season = new SeasonBuilder();
  season.add('ruleBook.adopted', `${day} 08:00`, {
    effectiveFrom: `${day}T00:00:00-05:00`,
    reason: 'measuring with every rule',
    approvedBy: id('Ines'),
    entries: catalogue.map((rule) => ({ ruleId: rule.id, enabled: true })),
  });
  // Under an id of its own: the season that it joins was written by such a builder too.
  return season.records.map((record) => recordFromLog({ ...record, id: id(`adopted ${day}`) }));
}

function withEverything(batches: number): OpenSeason {
  const log = longLog(batches);
  const season = openSeason([...log, ...adopting('1990-01-01').map((record) => ({ ...record, seq: log.length }))]);
  if (season.ofType('ruleBook.adopted').length !== 1) throw new Error('the rule book was not taken');
  return season;
}

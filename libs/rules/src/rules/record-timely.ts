import { instantOf, type CurrentRecord, type RecordType, type Season } from '@furrowmark/domain';
import { z } from 'zod';
import { caution, met, switchedOn, worst, type Judgement } from '../engine/judgement.ts';
import { hours } from '../engine/parameter.ts';
import { defineRule, type Given } from '../engine/rule.ts';
import { judged } from '../judging/by-standing.ts';
import { recordWords } from '../judging/record-words.ts';
import { atMost, elapsed, hourMs, momentAt } from '../judging/span.ts';
import { spanFigure, spanWords, timeOf } from '../judging/when.ts';
import { say, type Said } from '../words/index.ts';

const parameters = () =>
  z.object({
    tankHours: hours(4, 'Time within which a reading or an event at the tank is written down.'),
    otherHours: hours(24, 'Time within which everything else is written down.'),
  });
type Parameters = z.output<ReturnType<typeof parameters>>;

const atTheTank: ReadonlySet<string> = new Set([
  'batch.airStarted',
  'batch.airStopped',
  'batch.chlorineMeasured',
  'batch.oxygenMeasured',
  'batch.checked',
  'batch.neutralizerAdded',
  'batch.ingredientAdded',
  'batch.filled',
] satisfies RecordType[]);

/** Papers that tell of what is already on record elsewhere; their writing is no observation. */
const papers: ReadonlySet<string> = new Set([
  'batch.reviewed',
  'batch.analysed',
  'batch.opened',
  'batch.closed',
] satisfies RecordType[]);

const originWords = {
  fromMemory: say('record-timely.fromMemory'),
  fromPaper: say('record-timely.fromPaper'),
  instrument: say('record-timely.instrument'),
  observed: null,
};

function late(record: CurrentRecord, season: Season, { limits }: Given<Parameters>): Judgement {
  const book = limits(record.at.at);
  const limit = atTheTank.has(record.type) ? book.parameters.tankHours : book.parameters.otherHours;
  const span = elapsed(record.at, momentAt(instantOf(record.enteredAt ?? record.recordedAt)), hourMs);
  const origin = record.origin ?? 'observed';
  const from = originWords[origin];
  const how = from === null ? null : say('record-timely.how', { origin: from });
  const evidence = {
    figures: [spanFigure('hoursUntilWritten', span, 'h', { limit })],
    recordIds: [record.id],
    since: record.at.at,
  };
  const said = (): Said =>
    say('record-timely.said', {
      what: recordWords(record.type),
      record: timeOf(season, record.at.at),
      span: spanWords(span),
      how,
    });
  if (origin === 'fromPaper' && span.most > limit) {
    return caution(book, () => say('record-timely.keepPaper', { said: said(), limit }), evidence);
  }
  return judged(
    book,
    atMost(span, limit),
    () => ({
      within: say('common.stop', { said: said() }),
      pastAdvised: say('common.stop', { said: said() }),
      over: say('record-timely.over', { said: said(), limit }),
      unsure: say('record-timely.unsure', { said: said(), limit }),
    }),
    evidence,
  );
}

function ofRecords(records: readonly CurrentRecord[], given: Given<Parameters>): Judgement | null {
  const counted = records.filter((record) => record.state !== 'struck' && !papers.has(record.type));
  const judgements = counted.map((record) => late(record, given.season, given));
  const all = worst(judgements, (n) => say('record-timely.more', { n }));
  if (all === null) return null;
  const on = switchedOn(judgements);
  if (all.outcome === 'met')
    return met(all.limits, on.length === 1 ? say('record-timely.one') : say('record-timely.all', { n: on.length }), {});
  // Only the late ones are evidence; a batch has many records.
  return { ...all, figures: on.filter((each) => each.outcome !== 'met').flatMap((each) => each.figures) };
}

/** Time from the event to its writing: `enteredAt`, else the server's `recordedAt`. */
export const recordTimely = defineRule({
  id: 'record-timely',
  revision: 2,
  title: 'Written down in time',
  reason:
    'A record made on the spot is worth more than one made from memory at the end of the week. What counts is when it was typed, not when the telephone found reception.',
  basis: 'practice',
  citation:
    'common practice, no source (the hours); records are made when the act is done: 21 CFR 112.161(a), read 2026-11-25',
  severity: 'notice',
  packs: ['practice'],
  parameters,
  brokenWord: { en: 'late', es: 'tarde' },
  chosenAt: 'the event',
  looksAt: {
    kinds: ['batch', 'application', 'harvest', 'lot', 'pile'],
    records: [
      'batch.filled',
      'batch.airStarted',
      'batch.airStopped',
      'batch.chlorineMeasured',
      'batch.neutralizerAdded',
      'batch.ingredientAdded',
      'batch.oxygenMeasured',
      'batch.checked',
      'batch.sampled',
      'batch.drawn',
      'draw.ended',
      'batch.lost',
      'batch.disposed',
      'tea.supplied',
      'tea.received',
      'application.made',
      'harvest.made',
      'harvest.shipped',
      'lot.received',
      'lot.counted',
      'lot.disposed',
      'pile.started',
      'pile.added',
      'pile.measured',
      'pile.turned',
      'pile.finished',
    ],
  },
  judge: {
    batch: (batch, given) =>
      ofRecords(
        batch.records.filter((record) => /^(batch|draw|tea)\./.test(record.type)),
        given,
      ),
    application: (application, given) => ofRecords([application.record], given),
    harvest: (harvest, given) => ofRecords([harvest.record, ...harvest.shipments], given),
    lot: (lot, given) => {
      const { season } = given;
      const own = [
        ...season.naming('lot.received', lot.id),
        ...season.naming('lot.counted', lot.id),
        ...season.naming('lot.disposed', lot.id),
      ];
      return ofRecords(
        own.filter((record) => !('openingStock' in record.data && record.data.openingStock === true)),
        given,
      );
    },
    pile: (pile, given) => ofRecords([pile.started, ...pile.temperatures, ...pile.turnings, ...pile.finishes], given),
  },
});

import type { CurrentRecord } from '@furrowmark/domain';
import { z } from 'zod';
import { caution, type Judgement } from '../engine/judgement.ts';
import { defineRule, type Given } from '../engine/rule.ts';
import { recordWords } from '../judging/record-words.ts';
import { timeWords } from '../judging/when.ts';

type P = Record<never, never>;

interface Thing {
  readonly id: string;
  readonly code: string;
  readonly at: number;
  readonly rivals: readonly string[];
  readonly recordIds: readonly string[];
  /** Other things of the kind with the same code. */
  readonly twins: readonly { readonly id: string; readonly recordId: string }[];
  /** The records whose rival amendments matter. */
  readonly records: readonly CurrentRecord[];
}

/** Amendments of one record that say different things, neither of them struck. */
function rivalAmendments(record: CurrentRecord): readonly string[] {
  const amendments = record.history.filter(({ kind }) => kind === 'amended');
  const said = new Set(amendments.map(({ data }) => JSON.stringify(data)));
  // Somebody who amends an own amendment later corrects it; two people at odds are rivals.
  const writers = new Set(amendments.map(({ recordedBy }) => recordedBy));
  return said.size > 1 && writers.size > 1 ? amendments.map(({ recordId }) => recordId) : [];
}

function judgeThing(what: string, thing: Thing, { limits, season }: Given<P>): Judgement | null {
  const book = limits(thing.at);
  const parts: string[] = [];
  const recordIds: string[] = [];
  if (thing.rivals.length > 0) {
    parts.push(`${what} ${thing.code} is described ${thing.rivals.length + 1} times; the last in order is shown`);
    recordIds.push(...thing.recordIds, ...thing.rivals);
  }
  if (thing.twins.length > 0) {
    parts.push(
      `the code ${thing.code} is used for ${thing.twins.length + 1} different ${what === 'batch' ? 'batches' : `${what}s`}`,
    );
    recordIds.push(...thing.recordIds, ...thing.twins.map(({ recordId }) => recordId));
  }
  for (const record of thing.records) {
    const rivals = rivalAmendments(record);
    if (rivals.length === 0) continue;
    parts.push(
      `the record of ${timeWords(season, record.at.at)} (${recordWords(record.type)}) was amended in different ways; the last in order counts`,
    );
    recordIds.push(record.id, ...rivals);
  }
  if (parts.length === 0) return null;
  const text = `${parts.join('; ')}.`;
  return caution(book, text.charAt(0).toUpperCase() + text.slice(1), {
    figures: [{ name: 'contradictions', value: parts.length, limit: 0 }],
    recordIds: [...new Set(recordIds)],
  });
}

/** A code used twice, a thing described twice, a record amended in rival ways. */
export const recordConsistent = defineRule({
  id: 'record-consistent',
  revision: 1,
  title: 'One code, one thing, one account of it',
  reason:
    'Two batches with one code, or one lot described twice, make every later record about them doubtful. Nothing is refused for it, so it is shown until somebody says which is right.',
  basis: 'practice',
  citation:
    'common practice, no source; sufficient detail to be readily understood and audited: 7 CFR 205.103(b), read 2026-11-25',
  severity: 'notice',
  packs: ['practice'],
  parameters: z.object({}),
  chosenAt: 'the registration',
  looksAt: {
    kinds: ['batch', 'lot', 'application', 'harvest'],
    records: [
      'batch.opened',
      'tea.received',
      'lot.received',
      'pile.finished',
      'application.made',
      'harvest.made',
      'batch.filled',
      'batch.airStarted',
      'batch.airStopped',
      'batch.chlorineMeasured',
      'batch.neutralizerAdded',
      'batch.ingredientAdded',
      'batch.oxygenMeasured',
      'batch.checked',
      'batch.drawn',
      'draw.ended',
      'batch.lost',
      'batch.disposed',
      'tea.supplied',
      'batch.closed',
      'record.amended',
      'record.struck',
    ],
  },
  judge: {
    batch(batch, given) {
      const described = batch.opened ?? batch.receivedTea;
      return judgeThing(
        'batch',
        {
          id: batch.id,
          code: batch.code,
          at: described?.at.at ?? batch.records[0]?.at.at ?? given.now,
          rivals: batch.rivals,
          recordIds: described === null ? [] : [described.id],
          twins: described === null ? [] : given.reach.twins('batch', batch.code, batch.id),
          records: batch.records,
        },
        given,
      );
    },
    lot(lot, given) {
      const { record } = lot.origin;
      return judgeThing(
        'lot',
        {
          id: lot.id,
          code: lot.code,
          at: lot.at.at,
          rivals: lot.rivals,
          recordIds: [record.id],
          twins: given.reach.twins('lot', lot.code, lot.id),
          records: [record],
        },
        given,
      );
    },
    application(application, given) {
      return judgeThing(
        'application',
        {
          id: application.id,
          code: application.code,
          at: application.started.at,
          rivals: application.rivals,
          recordIds: [application.record.id],
          twins: [],
          records: [application.record],
        },
        given,
      );
    },
    harvest(harvest, given) {
      return judgeThing(
        'harvest',
        {
          id: harvest.id,
          code: harvest.code,
          at: harvest.at.at,
          rivals: harvest.rivals,
          recordIds: [harvest.record.id],
          twins: given.reach.twins('harvest', harvest.code, harvest.id),
          records: [harvest.record],
        },
        given,
      );
    },
  },
});

import type { CurrentRecord, Season } from '@furrowmark/domain';
import { z } from 'zod';
import { caution, type Judgement } from '../engine/judgement.ts';
import { defineRule, type Given } from '../engine/rule.ts';
import type { CodedKind } from '../judging/reach.ts';
import { recordWords } from '../judging/record-words.ts';
import { timeOf } from '../judging/when.ts';
import { say, type Said } from '../words/index.ts';

type P = Record<never, never>;

interface Thing {
  readonly code: string;
  readonly at: number;
  readonly rivals: readonly string[];
  readonly recordIds: readonly string[];
  /** Other things of the kind with the same code. */
  readonly twins: readonly { readonly id: string; readonly recordId: string }[];
  /** The records whose rival amendments matter. */
  readonly records: readonly CurrentRecord[];
}

/** Amendments of one record that say different things, none of them taken back. */
function rivalAmendments(record: CurrentRecord, season: Season): readonly string[] {
  if (record.history.length < 3) return [];
  const amendments = record.history.filter(
    ({ kind, recordId }) => kind === 'amended' && season.record(recordId)?.state !== 'struck',
  );
  const said = new Set(amendments.map(({ data }) => JSON.stringify(data)));
  return said.size > 1 ? amendments.map(({ recordId }) => recordId) : [];
}

function judgeThing(kind: CodedKind | 'application', thing: Thing, { limits, season }: Given<P>): Judgement | null {
  const book = limits(thing.at);
  const parts: Said[] = [];
  const recordIds: string[] = [];
  if (thing.rivals.length > 0) {
    parts.push(
      say('record-consistent.described', { kind: say(`kind.${kind}`), code: thing.code, n: thing.rivals.length + 1 }),
    );
    recordIds.push(...thing.recordIds, ...thing.rivals);
  }
  if (thing.twins.length > 0) {
    parts.push(
      say('record-consistent.sameCode', {
        code: thing.code,
        n: thing.twins.length + 1,
        things: say(`kinds.${kind}`),
      }),
    );
    recordIds.push(...thing.recordIds, ...thing.twins.map(({ recordId }) => recordId));
  }
  for (const record of thing.records) {
    const rivals = rivalAmendments(record, season);
    if (rivals.length === 0) continue;
    parts.push(say('record-consistent.amended', { at: timeOf(season, record.at.at), type: recordWords(record.type) }));
    recordIds.push(record.id, ...rivals);
  }
  if (parts.length === 0) return null;
  return caution(book, say('record-consistent.parts', { parts }), {
    figures: [{ name: 'contradictions', value: parts.length, limit: 0 }],
    recordIds: [...new Set(recordIds)],
  });
}

interface Register {
  readonly id: string;
  readonly registered: { readonly code: string };
  readonly recordIds: readonly string[];
  readonly rivals: readonly string[];
  readonly retired?: unknown;
}

/** A registered thing: a tank, a source, a field, … */
const registered =
  (kind: CodedKind) =>
  (thing: Register, given: Given<P>): Judgement | null => {
    const records = thing.recordIds.map((id) => given.season.record(id)).filter((record) => record !== undefined);
    const { code } = thing.registered;
    return judgeThing(
      kind,
      {
        code,
        at: records[0]?.at.at ?? given.now,
        rivals: thing.rivals,
        recordIds: thing.recordIds.slice(0, 1),
        twins: thing.retired === undefined ? given.reach.twins(kind, code, thing.id) : [],
        records,
      },
      given,
    );
  };

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
  parameters: () => z.object({}),
  brokenWord: { en: 'to be mended', es: 'por corregir' },
  chosenAt: 'the registration',
  looksAt: {
    kinds: [
      'batch',
      'lot',
      'application',
      'harvest',
      'source',
      'vessel',
      'equipment',
      'instrument',
      'field',
      'material',
    ],
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
      'source.registered',
      'source.revised',
      'source.retired',
      'vessel.registered',
      'vessel.revised',
      'vessel.retired',
      'equipment.registered',
      'equipment.revised',
      'equipment.retired',
      'instrument.registered',
      'instrument.revised',
      'instrument.retired',
      'field.registered',
      'field.revised',
      'field.retired',
      'material.registered',
      'material.revised',
      'material.retired',
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
    source: registered('source'),
    vessel: registered('vessel'),
    equipment: registered('equipment'),
    instrument: registered('instrument'),
    field: registered('field'),
    material: registered('material'),
  },
});

import { describe, expect, it } from '@jest/globals';
import { catalogue, isRecordType, recordTypes, typeEntry } from './catalogue.ts';
import { checkEntry } from './checkEntry.ts';
import { drafts, entries } from './corpus/read.ts';
import { clientMembers } from './envelope.ts';
import { recordFromLog } from './fromLog.ts';
import { parseDraft } from './parseDraft.ts';

const now = Date.parse('2026-11-25T12:00:00Z');
const logFacts = {
  operationId: '0197a000-0000-7000-8000-000000000001',
  seq: 7,
  recordedAt: '2026-04-22T13:00:00Z',
  recordedBy: '0197a000-0000-7000-8000-0000000000ac',
};

describe('the corpus of every version released', () => {
  it.each(drafts.map((draft) => [draft.type, draft.id, draft] as const))(
    '%s %s is accepted unchanged',
    (_t, _id, line) => {
      const parsed = parseDraft(line, { now });
      expect(parsed).toMatchObject({ ok: true });
      if (!parsed.ok) return;
      expect(parsed.sent).toEqual(line);
      expect(clientMembers({ ...line, ...logFacts })).toEqual(line);
    },
  );

  it.each(drafts.map((draft) => [draft.type, draft.id, draft] as const))(
    '%s %s is read back from a log',
    (_t, _id, line) => {
      const entry = { ...line, ...logFacts };
      expect(checkEntry(entry)).toBeNull();
      const record = recordFromLog(entry);
      const newest = typeEntry(line.type)?.version;
      expect(record).toMatchObject({ ...logFacts, id: line.id, type: line.type, version: newest });
      if (line.version === newest) expect(record.data).toEqual(line.data);
    },
  );

  it.each(entries.map((entry) => [entry.type, entry] as const))('the entry %s is whole', (_t, entry) => {
    expect(checkEntry(entry)).toBeNull();
    expect(recordFromLog(entry)).toEqual(entry);
  });

  it('an archive is told of the one thing in it that no log could keep, as of several', () => {
    const whole = entries.find(({ type }) => type === 'person.erased') ?? entries[0];
    const told = (data: object) => checkEntry({ ...whole, data: { ...whole?.data, ...data } });
    expect(told({ reason: 'asked\0for it' })).toMatchObject({
      code: 'malformed',
      errors: [{ pointer: '/data/reason', detail: '“reason” holds a NUL character: remove it.' }],
    });
    expect(told({ reason: 'asked\0for it', more: 0.1234567890123456 })?.errors).toHaveLength(2);
  });

  it('has an example of every type in every version', () => {
    const seen = new Set([...drafts, ...entries].map(({ type, version }) => `${type} ${String(version)}`));
    const released = recordTypes.flatMap((type) => {
      const entry = typeEntry(type);
      return [entry?.version, ...(entry?.older ?? []).map((older) => older.version)].map((v) => `${type} ${String(v)}`);
    });
    expect([...seen].sort()).toEqual(released.sort());
  });

  it('sends a reader of drafts to the member by its type', () => {
    const parsed = parseDraft(
      drafts.find(({ type }) => type === 'batch.filled'),
      { now },
    );
    if (!parsed.ok || parsed.draft.type !== 'batch.filled') throw new Error('not a fill');
    const { unit, value }: { unit: string; value: number } = parsed.draft.data.volume;
    expect({ unit, value }).toEqual({ unit: '[gal_us]', value: 290 });
  });
});

describe('the catalogue', () => {
  it('names no type by what every object inherits', () => {
    expect(isRecordType('constructor')).toBe(false);
    expect(typeEntry('__proto__')).toBeUndefined();
  });

  it('orders one instant: register, fill, air on, addition, reading, air off, draw, disposal, close', () => {
    const order = [
      'vessel.registered',
      'vessel.revised',
      'ruleBook.adopted',
      'lot.received',
      'batch.opened',
      'batch.filled',
      'batch.airStarted',
      'batch.chlorineMeasured',
      'batch.neutralizerAdded',
      'batch.ingredientAdded',
      'batch.oxygenMeasured',
      'batch.airStopped',
      'batch.drawn',
      'application.made',
      'draw.ended',
      'batch.disposed',
      'batch.closed',
      'harvest.made',
      'planting.ended',
      'batch.reviewed',
      'finding.answered',
      'vessel.retired',
      'record.amended',
      'record.struck',
    ] as const;
    const ranks = order.map((type) => catalogue[type].rank);
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
    expect(new Set(ranks).size).toBe(ranks.length);
  });

  it('gives every registered kind a way to be revised and retired', () => {
    const kinds = recordTypes.filter((type) => type.endsWith('.registered')).map((type) => type.split('.')[0]);
    expect(kinds).toHaveLength(8);
    for (const kind of kinds) {
      expect(recordTypes).toContain(`${String(kind)}.revised`);
      expect(recordTypes).toContain(`${String(kind)}.retired`);
    }
    expect(recordTypes).toContain('operation.revised');
  });
});

import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { z } from 'zod';
import { amendedBy, struckBy } from './amended.ts';
import { typeEntry, type TypeEntry } from './catalogue.ts';
import { checkEntry } from './checkEntry.ts';
import { entries, example } from './corpus/read.ts';
import { clientMembers } from './envelope.ts';
import { recordFromLog, UnreadableEntry } from './fromLog.ts';
import { batchesNamed, mentions } from './mentions.ts';
import type { LogRecord, RecordType } from './index.ts';
import { isSealed, sealedIn } from './sealed.ts';
import { upcast } from './upcast.ts';

const logFacts = {
  operationId: '0197a000-0000-7000-8000-000000000001',
  seq: 7,
  recordedAt: '2026-06-03T13:00:00Z',
  recordedBy: '0197a000-0000-7000-8000-0000000000ac',
};
const entry = (type: string, changes: Record<string, unknown> = {}) => ({ ...example(type, changes), ...logFacts });

function logged<T extends RecordType>(type: T, changes: Record<string, unknown> = {}): LogRecord<T> {
  const record: unknown = recordFromLog(entry(type, changes));
  return record as LogRecord<T>; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- the example is of the type asked for
}

describe('reading the log back', () => {
  it.each([null, [], 'x', 7, {}, { ...entry('batch.filled'), seq: 1.5 }, { ...entry('batch.filled'), data: [] }])(
    'is not an entry: %j',
    (value) => {
      expect(() => recordFromLog(value)).toThrow(UnreadableEntry);
    },
  );
  it('a type or version that came later cannot be read, and says so', () => {
    expect(() => recordFromLog({ ...entry('batch.filled'), type: 'batch.sung' })).toThrow('batch.sung');
    expect(() => recordFromLog({ ...entry('batch.filled'), version: 2 })).toThrow('the newest is 1');
    expect(() => recordFromLog(entry('record.amended', { version: 2 }))).toThrow('the newest is 1');
  });
  it('nor can a correction of what came later, nor a correction of such a correction', () => {
    const amending = (data: object): object => ({ recordId: entry('batch.filled').id, ...data, reason: 'wrong' });
    const inner = (type: string, version: number) => amending({ type, version, data: entry('batch.filled').data });
    const read = (data: object) => recordFromLog({ ...entry('record.amended'), data });
    for (const data of [inner('batch.sung', 1), inner('batch.filled', 2)]) {
      expect(() => read(data)).toThrow(UnreadableEntry);
      expect(() => read(amending({ type: 'record.amended', version: 1, data }))).toThrow(UnreadableEntry);
    }
    const twice = amending({ type: 'record.amended', version: 1, data: inner('batch.filled', 1) });
    expect(read(twice).data).toEqual(twice);
  });
  it('a hundred thousand entries are read within a few seconds of processor time', () => {
    const one = entry('application.made');
    const began = process.cpuUsage();
    for (let i = 0; i < 100_000; i++) recordFromLog(one);
    expect(process.cpuUsage(began).user / 1000).toBeLessThan(8000);
  });
});

describe('an entry of a log that was written elsewhere', () => {
  const filled = entry('batch.filled');
  it('is checked in full: its payload too', () => {
    expect(checkEntry(filled)).toBeNull();
    expect(checkEntry(entry('batch.filled', { volume: { value: -1, unit: 'L' } }))?.errors[0]?.pointer).toBe(
      '/data/volume/value',
    );
    expect(checkEntry(null)?.code).toBe('malformed');
    expect(checkEntry(entry('batch.filled', { note: 'a'.repeat(10_001) }))).toMatchObject({
      code: 'malformed',
      errors: [expect.objectContaining({ pointer: '/data/note' })],
    });
    expect(checkEntry({ ...filled, note: 1 })?.errors[0]?.pointer).toBe('/note');
    expect(checkEntry(example('batch.filled'))?.errors.map(({ pointer }) => pointer)).toEqual([
      '/operationId',
      '/seq',
      '/recordedAt',
      '/recordedBy',
    ]);
  });
  it('cannot have happened a day after it was recorded', () => {
    expect(checkEntry({ ...filled, recordedAt: '2026-04-01T00:00:00Z' })?.code).toBe('impossible');
  });
});

describe('older versions', () => {
  // An invented history: version 2 renamed `smell` to `odour`, version 3 made the reading a list.
  const history: TypeEntry = {
    version: 3,
    schema: () => z.unknown(),
    rank: 1,
    older: [
      { version: 1, schema: () => z.unknown(), upcast: (data) => ({ odour: Reflect.get(Object(data), 'smell') }) },
      { version: 2, schema: () => z.unknown(), upcast: (data) => ({ odours: [Reflect.get(Object(data), 'odour')] }) },
    ],
  };
  it('are brought to the newest a step at a time', () => {
    expect(upcast('x', 1, { smell: 'sour' }, history)).toEqual({ odours: ['sour'] });
    expect(upcast('x', 2, { odour: 'sour' }, history)).toEqual({ odours: ['sour'] });
  });
  it('the newest comes back as it is', () => {
    const data = { odours: ['sour'] };
    expect(upcast('x', 3, data, history)).toBe(data);
  });
  it('an unknown one is no guess', () => {
    expect(() => upcast('x', 4, {}, history)).toThrow(RangeError);
    expect(() => upcast('x', 0, {}, history)).toThrow(RangeError);
    expect(() => upcast('no.such', 1, {})).toThrow(RangeError);
  });
});

describe('corrections applied', () => {
  const original = logged('batch.ingredientAdded');
  const correction = { recordId: original.id, type: original.type, version: 1, reason: 'weighed' };
  const corrected = { ...original.data, quantity: { value: 7, unit: '[lb_av]' } };

  it('the whole data is the amendment’s; time and person only where it names them', () => {
    const amendment = logged('record.amended', { ...correction, data: corrected, occurredAt: undefined });
    expect(amendedBy(original, amendment)).toEqual({ ...original, data: corrected });
    const performedBy = '0197a000-0000-7000-8000-0000000000a1';
    const times = { occurredAt: '2026-04-20T10:00:00-04:00', plusMinusMinutes: 0, performedBy };
    expect(amendedBy(original, logged('record.amended', { ...correction, data: corrected, ...times }))).toEqual({
      ...original,
      ...times,
      data: corrected,
    });
  });
  it('an amendment that names another type or record has no effect', () => {
    const elsewhere = { ...correction, data: corrected, recordId: logged('batch.closed').id };
    expect(amendedBy(original, logged('record.amended', elsewhere))).toBeNull();
    expect(amendedBy(original, logged('record.amended', { ...correction, type: 'batch.filled', data: {} }))).toBeNull();
  });
  it('a strike that gets round the type named has no effect on a signature', () => {
    const review = logged('batch.reviewed');
    const strike = (type: string) => logged('record.struck', { recordId: review.id, type });
    expect(struckBy(review, strike('batch.reviewed'))).toBe(false);
    expect(struckBy(review, strike('batch.closed'))).toBe(false);
    expect(struckBy(original, logged('record.struck', { recordId: original.id, type: original.type }))).toBe(true);
    const other = logged('record.struck', { recordId: review.id, type: original.type });
    expect(struckBy(original, other)).toBe(false);
  });
  it.each(['ruleBook.adopted', 'batch.reviewed', 'person.erased', 'access.granted', 'access.used', 'access.withdrawn'])(
    '%s is marked as final',
    (type) => {
      expect(typeEntry(type)?.final).toBe(true);
    },
  );
});

describe('what a record names', () => {
  const id = (end: string) => `0197a000-0000-7000-8000-000000000${end}`;
  it('an application names its ground, planting, draw, lot, water, sprayer and applicator', () => {
    expect(mentions(logged('application.made')).sort()).toEqual(
      ['181', '141', '151', '171', '111', '0b1', '0d1', '0a1'].map(id).sort(),
    );
  });
  it('who did it is named too', () => {
    const performedBy = id('0a7');
    expect(mentions({ ...example('batch.airStarted'), performedBy })).toContain(performedBy);
  });
  it('a correction names the record it corrects and what its data names', () => {
    expect(mentions(logged('record.amended'))).toEqual(['0197a000-0000-7000-8000-000000900035', id('161'), id('113')]);
    expect(batchesNamed(logged('record.amended'))).toEqual([id('161')]);
  });
  it('an id counts wherever it stands among texts, numbers, yes and no, and nothing at all', () => {
    const plain = fc.oneof(fc.string(), fc.double(), fc.boolean(), fc.constant(null));
    const data = fc.letrec((tie) => ({
      any: fc.oneof(
        { maxDepth: 4 },
        fc.oneof(
          plain,
          fc.uuid().map((found) => ({ found })),
        ),
        fc.array(tie('any'), { maxLength: 4 }),
        fc.dictionary(fc.string({ minLength: 1 }), tie('any'), { maxKeys: 4 }),
      ),
    })).any;
    fc.assert(
      fc.property(data, (value) => {
        const written = [...JSON.stringify(value).matchAll(/"found":"([^"]*)"/g)].map((match) => match[1]);
        expect(mentions({ data: value })).toEqual([...new Set(written)]);
      }),
    );
  });
  it('a carried-over rest names the batch it went into; a load its batch; a draw none', () => {
    expect(batchesNamed(logged('draw.ended', { intoBatchId: id('162') }))).toEqual([id('162')]);
    expect(batchesNamed(logged('application.made'))).toEqual([]);
    expect(batchesNamed({ data: { draws: [{ batchId: id('161') }, { batchId: id('161') }] } })).toEqual([id('161')]);
  });
});

describe('people under seal', () => {
  it('a registration, a revision that renames, and amendments of them hold sealed members', () => {
    const person = example('person.registered');
    const renamed = example('person.revised', { language: 'en' });
    expect(sealedIn(person)).toEqual([['data', 'personal']]);
    expect(sealedIn(renamed)).toEqual([['data', 'personal']]);
    expect(sealedIn({ ...renamed, data: { ...renamed.data, personal: undefined } })).toEqual([]);
    const amendment = example('record.amended', { type: person.type, data: person.data });
    expect(sealedIn(amendment)).toEqual([['data', 'data', 'personal']]);
    const twice = example('record.amended', { type: 'record.amended', data: amendment.data });
    expect(sealedIn(twice)).toEqual([['data', 'data', 'data', 'personal']]);
    expect(sealedIn(example('batch.filled'))).toEqual([]);
  });
  it('a seal is told from a name', () => {
    expect(isSealed(entries.find(({ type }) => type === 'person.registered')?.data['personal'])).toBe(true);
    expect(isSealed({ name: 'Ines Harrow' })).toBe(false);
  });
  it('where nothing is that could be sealed, nothing is', () => {
    for (const odd of [undefined, null, 'Ines Harrow', 7, true, [], Object.create({ sealed: 'x' })])
      expect(isSealed(odd)).toBe(false);
    for (const data of [undefined, null, 'x', 7, [], {}, { personal: undefined }]) {
      expect(sealedIn({ type: 'person.registered', data })).toEqual([]);
      expect(sealedIn({ type: 'record.amended', data })).toEqual([]);
      expect(sealedIn({ type: 'record.amended', data: { type: 'person.revised', data } })).toEqual([]);
    }
  });
});

describe('what the writer sent', () => {
  it('is the entry without the log’s own facts', () => {
    const draft = { ...example('batch.filled'), origin: 'fromPaper' };
    expect(clientMembers({ ...draft, ...logFacts, enteredAt: undefined })).toEqual(draft);
  });
});

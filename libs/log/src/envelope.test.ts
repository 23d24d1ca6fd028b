import { describe, expect, it } from '@jest/globals';
import { readEnvelope } from './envelope.ts';

const facts = {
  operationId: 'op',
  seq: 3,
  type: 'batch.opened',
  occurredAt: '2026-06-03T06:10:00-05:00',
  recordedAt: '2026-06-03T11:10:20.5Z',
  data: { key: 'not a log’s key: the type says so' },
};

describe('the log’s own facts in an entry', () => {
  it('are read, times as instants', () => {
    expect(readEnvelope(facts)).toEqual({
      ok: true,
      value: {
        operationId: 'op',
        seq: 3,
        type: 'batch.opened',
        occurredAt: Date.UTC(2026, 5, 3, 11, 10),
        recordedAt: Date.UTC(2026, 5, 3, 11, 10, 20, 500),
        nextKey: null,
      },
    });
  });

  it.each(['key.replaced', 'log.restored', 'import.made'])('%s names the next key', (type) => {
    expect(readEnvelope({ ...facts, type, data: { key: 'K' } })).toMatchObject({ ok: true, value: { nextKey: 'K' } });
  });

  it.each<[string, object]>([
    ['no log', { operationId: undefined }],
    ['no number', { seq: '3' }],
    ['a negative number', { seq: -1 }],
    ['a fraction', { seq: 1.5 }],
    ['no type', { type: 1 }],
    ['no time of recording', { recordedAt: null }],
    ['a time without offset', { recordedAt: '2026-06-03T11:10:20' }],
    ['a time that is none', { recordedAt: '2026-13-03T11:10:20Z' }],
    ['no time of the event', { occurredAt: '2026-06-03' }],
  ])('are missed: %s', (_what, change) => {
    expect(readEnvelope({ ...facts, ...change }).ok).toBe(false);
  });

  it.each([null, 1, 'text', [], [facts]])('are not in %j', (value) => {
    expect(readEnvelope(value).ok).toBe(false);
  });
});

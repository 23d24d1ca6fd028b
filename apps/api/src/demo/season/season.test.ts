import { describe, expect, it } from '@jest/globals';
import { parseDraft } from '@furrowmark/domain';
import { seasonYear, writeSeason, type Written } from './index.ts';

const known = { operationId: '01976f00-0000-7000-8000-000000000001', lastSeq: 900 };
const recordsOf = (year: number): readonly Written[] => writeSeason(year).map((entry) => entry.record(known));

describe('the invented season', () => {
  const season = recordsOf(2026);
  const count = (type: string): number => season.filter((record) => record.type === type).length;

  it('has nothing that a phone could not send', () => {
    const now = Date.parse('2026-09-15T00:00:00Z');
    const refused = season.flatMap((record) => {
      const parsed = parseDraft(record, { now });
      return parsed.ok ? [] : [{ record, parsed }];
    });
    expect(refused).toEqual([]);
  });

  it('is the same, ids included, however often it is written', () => {
    expect(recordsOf(2026)).toEqual(season);
    expect(new Set(season.map((record) => record.id)).size).toBe(season.length);
  });

  it('can be told of any year, a leap year included', () => {
    for (const year of [2025, 2028, 2031]) {
      const told = recordsOf(year);
      expect(told).toHaveLength(season.length);
      expect(told.every((record) => record.occurredAt.startsWith(`${year}-`))).toBe(true);
    }
  });

  it('delivers no record before it happened or was typed', () => {
    for (const entry of writeSeason(2026)) {
      const { occurredAt, enteredAt } = entry.record(known);
      const sent = Date.parse(entry.sentAt);
      expect(sent).toBeGreaterThanOrEqual(Date.parse(enteredAt ?? occurredAt));
      expect(Date.parse(occurredAt)).toBeLessThanOrEqual(sent);
    }
  });

  it('has the batches, vessels, ground and lots that it promises', () => {
    expect(count('batch.opened')).toBeGreaterThanOrEqual(24);
    expect(count('vessel.registered')).toBe(4);
    expect(count('lot.received') + count('pile.finished')).toBeGreaterThanOrEqual(12);
    expect(count('lot.recalled')).toBe(1);
    const ground = season
      .filter((record) => record.type === 'field.registered')
      .map((record) => JSON.stringify(record.data));
    expect(ground.filter((text) => !text.includes('parentId') && !text.includes('"tunnel"'))).toHaveLength(8);
    expect(ground.every((text) => text.includes('"Polygon"'))).toBe(true);
  });
});

describe('the season that the demo looks back on', () => {
  it('is over by the middle of September', () => {
    expect(seasonYear(new Date('2026-09-14T12:00:00Z'))).toBe(2025);
    expect(seasonYear(new Date('2026-09-15T12:00:00Z'))).toBe(2026);
    expect(seasonYear(new Date('2027-03-01T12:00:00Z'))).toBe(2026);
  });
});

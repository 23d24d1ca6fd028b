import { isRecordType } from '@furrowmark/domain';
import { describe, expect, it } from '@jest/globals';
import { catalogue, packs, wordFor } from './index.ts';

describe('the catalogue', () => {
  it('every rule has an id of its own, a reason of two sentences, a citation and at least one pack', () => {
    expect(new Set(catalogue.map(({ id }) => id)).size).toBe(catalogue.length);
    const known = new Set<string>(packs.map(({ id }) => id));
    for (const rule of catalogue) {
      expect([rule.id, rule.reason.match(/[.!?](\s|$)/g)?.length]).toEqual([rule.id, expect.any(Number)]);
      expect([rule.id, (rule.reason.match(/[.!?](\s|$)/g)?.length ?? 0) >= 2]).toEqual([rule.id, true]);
      expect([rule.id, rule.citation === '']).toEqual([rule.id, false]);
      expect(rule.packs.length).toBeGreaterThan(0);
      for (const pack of rule.packs) expect(known).toContain(pack);
      for (const type of rule.looksAt.records)
        expect([rule.id, type, isRecordType(type)]).toEqual([rule.id, type, true]);
    }
  });

  it('every citation says where it was read, that it is from memory, or that it is common practice', () => {
    for (const { id, citation } of catalogue) {
      expect([id, /read 2026-11-25|from memory|common practice, no source/.test(citation)]).toEqual([id, true]);
    }
  });

  it('no regulation sets brew time, hold time or 6 mg/L: they are practice, and minor', () => {
    for (const id of ['brew-minimum', 'brew-maximum', 'hold-maximum', 'oxygen-minimum']) {
      expect(catalogue.find((rule) => rule.id === id)).toMatchObject({ basis: 'practice', severity: 'minor' });
    }
  });

  it('practice belongs to the pack that always binds', () => {
    for (const rule of catalogue)
      if (rule.basis === 'practice') expect([rule.id, rule.packs]).toEqual([rule.id, ['practice']]);
  });

  it('the basis decides the words', () => {
    expect(wordFor('regulation', 'broken')).toBe('Not met');
    expect(wordFor('practice', 'broken')).toBe('Outside your limit');
    expect(wordFor('guideline', 'broken')).toBe('Outside the guideline');
    for (const basis of ['regulation', 'certifier', 'guideline', 'ownPlan', 'practice'] as const) {
      for (const verdict of ['met', 'caution', 'broken', 'due', 'unknown', 'notApplicable'] as const) {
        expect(wordFor(basis, verdict)).not.toMatch(/\b(safe|compliant|pass)/i);
      }
    }
  });
});

import { isRecordType } from '@furrowmark/domain';
import { describe, expect, it } from '@jest/globals';
import { catalogue, packs, ruleById, wordFor, type Basis } from './index.ts';

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
      expect([id, /read 2026-11-2[56]|from memory|common practice, no source/.test(citation)]).toEqual([id, true]);
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

  it('a recalled or held lot, an unwashed tank, a late record is called so: no limit is spoken of', () => {
    const word = (id: string) => wordFor('practice', 'broken', ruleById(id));
    expect(word('input-recalled')).toBe('Recalled');
    expect(word('input-not-held')).toBe('On hold');
    expect(word('vessel-clean')).toBe('Not cleaned in time');
    expect(word('equipment-clean')).toBe('Not cleaned');
    expect(word('reference-known')).toBe('Not on record');
    expect(word('record-consistent')).toBe('To be mended');
    expect(word('record-timely')).toBe('Late');
    expect(word('hold-maximum')).toBe('Outside your limit');
    expect(wordFor('practice', 'met', ruleById('input-not-held'))).toBe('Met, as recorded');
  });

  it("a rule's own word never stands in for that of a regulation, a ruling, a guideline or the system plan", () => {
    for (const rule of catalogue) {
      if (rule.brokenWord !== undefined) expect([rule.id, rule.basis]).toEqual([rule.id, 'practice']);
      for (const basis of ['regulation', 'certifier', 'guideline', 'ownPlan'] as const)
        expect([rule.id, wordFor(basis, 'broken', rule)]).toEqual([rule.id, wordFor(basis, 'broken')]);
      expect(`${rule.brokenWord?.en ?? ''} ${rule.brokenWord?.es ?? ''}`).not.toMatch(
        /violat|illegal|unlawful|infracci|safe|compliant|\bpass/i,
      );
    }
  });

  it('a limit of the operation’s own is kept within; what anybody else asks is met as recorded', () => {
    const met = (basis: Basis, language?: 'es') => wordFor(basis, 'met', {}, language);
    expect([met('practice'), met('practice', 'es')]).toEqual(['Within your limit', 'Dentro de su límite']);
    for (const basis of ['regulation', 'certifier', 'guideline', 'ownPlan'] as const)
      expect([basis, met(basis), met(basis, 'es')]).toEqual([basis, 'Met, as recorded', 'Se cumple, según lo anotado']);
    // What is neither kept nor broken is called the same whoever asks it.
    for (const verdict of ['caution', 'due', 'unknown', 'notApplicable'] as const)
      expect([verdict, wordFor('practice', verdict)]).toEqual([verdict, wordFor('regulation', verdict)]);
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

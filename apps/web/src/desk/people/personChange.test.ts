import { describe, expect, it } from '@jest/globals';
import { parseDraft, sealedIn } from '@furrowmark/domain';
import { v7 } from 'uuid';
import { personalIn, revisionOf, writtenOf } from './personChange.ts';

const personId = v7();
const registered = { personal: { name: 'Tobin Quay', initials: 'TQ', title: 'applicator' }, language: 'en' };
const before = writtenOf(registered);
const parsed = (type: string, data: object) =>
  parseDraft(
    { id: v7(), type, version: 1, occurredAt: '2026-06-01T08:00:00-05:00', data },
    { now: Date.parse('2026-06-02T00:00:00Z') },
  );

describe('a change of what is known of a person', () => {
  it('that changes nothing is none', () => {
    expect(revisionOf(before, before)).toBe(null);
    // Emptied it cannot be: a revision only names what is so now.
    expect(revisionOf(before, { ...before, language: '' })).toBe(null);
  });
  it('of one personal value sends them all, open, where the log seals them', () => {
    const changes = revisionOf(before, { ...before, title: 'foreman' });
    expect(changes).toEqual({ personal: { name: 'Tobin Quay', initials: 'TQ', title: 'foreman' } });
    const data = { personId, ...changes };
    const answer = parsed('person.revised', data);
    expect(answer.ok ? null : answer.problem).toBeNull();
    expect(sealedIn({ type: 'person.revised', data })).toEqual([['data', 'personal']]);
  });
  it('leaves out what was emptied', () => {
    expect(revisionOf(before, { ...before, title: ' ', initials: '' })).toEqual({ personal: { name: 'Tobin Quay' } });
  });
  it('of the language alone does not send the name again', () => {
    expect(revisionOf(before, { ...before, language: 'es' })).toEqual({ language: 'es' });
  });
  it('without a name is refused, not left out without a word', () => {
    const changes = revisionOf(before, { ...before, name: '' });
    expect(parsed('person.revised', { personId, ...changes }).ok).toBe(false);
  });
  it('begins with nothing where the name is sealed or erased', () => {
    const sealed = { personal: { sealed: 'A'.repeat(43) + '=' } };
    expect(personalIn(writtenOf(sealed))).toEqual({ name: '' });
  });
});

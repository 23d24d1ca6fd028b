import { openSeason } from '@furrowmark/domain';
import type { Outcome } from '@furrowmark/rules';
import { describe, expect, it } from '@jest/globals';
import { tell } from './telling.ts';
import { verdictLine } from './verdict-lines.ts';

const telling = (language: 'en' | 'es') => tell(openSeason([]), { now: 0, language, log: { size: 0, root: '' } });
const recalled: Outcome = {
  ruleId: 'input-recalled',
  revision: 1,
  about: { kind: 'lot', id: 'f1', code: 'FH-1' },
  outcome: 'broken',
  severity: 'critical',
  basis: 'practice',
  title: 'No recalled lot in the tea',
  message: 'Recalled. Lot FH-1 was recalled.',
  figures: [],
  recordIds: [],
  citation: 'common practice, no source',
  ruleBookSeq: null,
  findingId: 'f1',
};

describe("a verdict's word in a report", () => {
  it("is the rule's own where no limit of the operation's is involved, in the reader's language, and said once", () => {
    expect(verdictLine(telling('en'), recalled)).toMatchObject({ word: 'recalled', message: 'Lot FH-1 was recalled.' });
    expect(verdictLine(telling('es'), recalled)).toMatchObject({ word: 'retirado', message: 'Lot FH-1 was recalled.' });
  });
  it('is that of the system plan where the plan promises it', () => {
    const promised = { ...recalled, basis: 'ownPlan', message: 'Not as the system plan promises. Lot FH-1.' } as const;
    expect(verdictLine(telling('en'), promised)).toMatchObject({
      word: 'not as the system plan promises',
      message: 'Lot FH-1.',
    });
  });
  it('does not speak of a limit where a rule without one is met', () => {
    expect(verdictLine(telling('en'), { ...recalled, ruleId: 'input-not-held', outcome: 'met' }).word).not.toMatch(
      /limit/i,
    );
    expect(verdictLine(telling('en'), { ...recalled, ruleId: 'hold-maximum', outcome: 'met' }).word).toMatch(/limit/i);
  });
});

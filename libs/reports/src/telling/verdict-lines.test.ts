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
  message:
    'Recalled. Lot FH-1 was recalled at 14:05 on 12 July 2026 (seal broken); it is not used in tea: keep it out.',
  said: {
    key: 'input-recalled.unused',
    with: {
      said: { key: 'input-recalled.said', with: { code: 'FH-1', at: '2026-07-12T14:05', reason: 'seal broken' } },
    },
  },
  figures: [],
  recordIds: [],
  citation: 'common practice, no source',
  ruleBookSeq: null,
  findingId: 'f1',
};

describe("a verdict's word in a report", () => {
  it("is the rule's own where no limit of the operation's is involved, in the reader's language, and said once", () => {
    expect(verdictLine(telling('en'), recalled)).toMatchObject({
      word: 'recalled',
      message: expect.stringMatching(/^Lot FH-1 was recalled at 14:05 on 12 July 2026 \(seal broken\); it is not used/),
      title: 'No recalled lot in the tea',
    });
    expect(verdictLine(telling('es'), recalled)).toMatchObject({
      word: 'retirado',
      message:
        'El lote FH-1 fue retirado por aviso a las 14:05 del 12 de julio de 2026 (seal broken); no se usó en té: déjelo fuera.',
      title: 'Ningún lote retirado en el té',
    });
  });
  it('is that of the system plan where the plan promises it', () => {
    const promised = { ...recalled, basis: 'ownPlan' } as const;
    expect(verdictLine(telling('en'), promised)).toMatchObject({
      word: 'not as the system plan promises',
      message: expect.stringMatching(/^Lot FH-1 was recalled/),
    });
  });
  it('does not speak of a limit where a rule without one is met', () => {
    expect(verdictLine(telling('en'), { ...recalled, ruleId: 'input-not-held', outcome: 'met' }).word).not.toMatch(
      /limit/i,
    );
    expect(verdictLine(telling('en'), { ...recalled, ruleId: 'hold-maximum', outcome: 'met' }).word).toMatch(/limit/i);
  });
});

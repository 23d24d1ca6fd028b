import { describe, expect, it } from '@jest/globals';
import { judgeAsSigned, judgeBatch, reviewsOf } from './index.ts';
import { id, instant, ordinary } from './testing/season.ts';

const now = instant('2026-12-31 00:00');

/** T-14 with 7.5 h of hold: within 8 h. Signed on 5 June over everything so far. */
function signed() {
  const season = ordinary();
  const batch = season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
  batch
    .oxygen('06-02 18:00', 7)
    .airOff('06-03 06:30')
    .checked('06-03 07:00')
    .applied('A-1', '06-03 08:00', '06-03 14:00');
  batch.closed('06-03 15:00');
  const throughSeq = season.records.length - 1;
  const review = season.add('batch.reviewed', '06-05 09:00', {
    batchId: id('T-14'),
    throughSeq,
    meaning: 'reviewed',
    statement: 'I have read these records.',
  });
  return { season, review, throughSeq };
}
const hold = (outcomes: ReturnType<typeof judgeBatch>) =>
  outcomes.find(({ ruleId, about }) => ruleId === 'hold-maximum' && about.kind === 'draw')?.outcome;

describe('a signed review keeps what it was signed on', () => {
  it('whatever was amended since, and says which records were', () => {
    const { season, review, throughSeq } = signed();
    const off = season.records.find(({ type }) => type === 'batch.airStopped');
    season.amended(
      off?.id ?? '',
      'batch.airStopped',
      '06-08 09:00',
      { batchId: id('T-14') },
      { occurredAt: '06-03 04:00' },
    );
    const open = season.season();
    const batch = open.batch(id('T-14'));
    // Air off at 04:00 instead: 10 h until 14:00, past the limit of 8 h.
    expect(hold(judgeBatch(open, id('T-14'), now))).toBe('broken');
    expect(hold(judgeAsSigned(open, id('T-14'), review))).toBe('caution');
    expect(batch === undefined ? [] : reviewsOf(batch)).toEqual([
      {
        recordId: review,
        throughSeq,
        meaning: 'reviewed',
        statement: 'I have read these records.',
        signedAt: '2026-06-05T09:00:00-05:00',
        signedBy: id('account'),
        amendedSince: [off?.id],
      },
    ]);
  });

  it('a rule book adopted afterwards for the time before does not touch it', () => {
    const { season, review } = signed();
    season.adopted('05-01 00:00', [{ ruleId: 'hold-maximum', parameters: { limitHours: 7 } }], { when: '06-20 09:00' });
    const open = season.season();
    expect(hold(judgeBatch(open, id('T-14'), now))).toBe('broken');
    expect(hold(judgeAsSigned(open, id('T-14'), review))).toBe('caution');
  });

  it('is judged by the clock of the signing: what was due then, is due', () => {
    const { season, review } = signed();
    const due = judgeAsSigned(season.season(), id('T-14'), review).find(
      ({ ruleId, about }) => ruleId === 'record-complete' && about.kind === 'batch',
    );
    // The review itself is not among what it was signed on: 30 days after the closing.
    expect(due).toMatchObject({ outcome: 'due', dueAt: instant('07-03 15:00') });
  });

  it('an id that names no review of the batch has nothing signed', () => {
    const { season } = signed();
    expect(judgeAsSigned(season.season(), id('T-14'), id('nobody'))).toEqual([]);
  });
});

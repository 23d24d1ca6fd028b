import { z } from 'zod';
import { broken, met, notApplicable, unknown } from '../engine/judgement.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { say } from '../words/index.ts';

/** What a tank held before it was first used for tea. */
export const vesselHistory = defineRule({
  id: 'vessel-history',
  revision: 1,
  title: 'Tank with a known past',
  reason:
    'Plastic takes up what it held and gives it back for years; no washing takes a pesticide out of a tote. A tank of unknown past is found out about, or left alone.',
  basis: 'practice',
  citation:
    'common practice, no source; commingling and contact with prohibited substances: 7 CFR 205.272 (of handling), in a secondary copy, read 2026-11-25',
  severity: 'major',
  packs: ['practice'],
  parameters: () => z.object({}),
  chosenAt: 'the first fill',
  looksAt: {
    kinds: ['vessel', 'batch'],
    records: [...tankRecords, 'vessel.registered', 'vessel.revised'],
  },
  judge: {
    vessel(vessel, { limits, season, now }) {
      const used = season.batchesIn(vessel.id).filter(({ fills }) => fills.length > 0);
      const first = used.reduce<number | null>(
        (at, { fills }) => Math.min(at ?? Infinity, fills[0]?.started.at ?? Infinity),
        null,
      );
      const book = limits(first ?? now);
      // The past of a tank is found out about later; what is known now holds for all time.
      const past = vessel.revisions.reduce(
        (known, { changes }) => changes.previousContents ?? known,
        vessel.registered.previousContents,
      );
      const { code } = vessel.registered;
      const recordIds = vessel.recordIds;
      if (past === 'none' || past === 'food')
        return met(
          book,
          say('vessel-history.held', {
            code,
            past: past === 'none' ? say('vessel-history.nothing') : say('vessel-history.food'),
          }),
          { recordIds },
        );
      if (used.length === 0)
        return notApplicable(
          book,
          say('vessel-history.unused', {
            code,
            past: past === 'other' ? say('vessel-history.otherThanFood') : say('vessel-history.notKnown'),
          }),
        );
      return past === 'unknown'
        ? unknown(book, say('vessel-history.unknown', { code }), { recordIds })
        : broken(book, say('vessel-history.other', { code }), { recordIds });
    },
  },
});

import { endOfDay } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, due, met, notApplicable, worst, type Judgement } from '../engine/judgement.ts';
import { defineRule } from '../engine/rule.ts';
import { atEitherEnd } from '../judging/at-either-end.ts';
import { dayOf } from '../judging/water.ts';
import { say } from '../words/index.ts';

/** What the certifier asked for by a day, and the word sent back. */
export const certifierDue = defineRule({
  id: 'certifier-due',
  revision: 3,
  title: "The certifier's letters answered in time",
  reason:
    'A condition or a notice carries a day by which it is answered; past it the certificate itself is at stake. It counts as answered once a word to the certifier about that letter is recorded.',
  basis: 'certifier',
  citation:
    "the certifier's letter; 7 CFR 205.406(a)(3) (correction of what was identified), read 2026-11-25; 205.404(a) and 205.662(a)(3), 2015 edition, read 2026-11-26",
  severity: 'major',
  packs: ['us-organic'],
  parameters: () => z.object({}),
  chosenAt: 'the letter',
  looksAt: { kinds: ['operation'], records: ['certifier.wrote', 'certifier.notified'] },
  judge: {
    operation(_operation, { limits, season, now }) {
      const letters = season.ofType('certifier.wrote').filter(({ data }) => data.dueOn !== undefined);
      const judgements = letters.map((letter): Judgement => {
        const book = limits(letter.at.at);
        const dueOn = letter.data.dueOn ?? '';
        const end = endOfDay(dueOn, season.timeZone);
        const { kind, reference } = letter.data;
        const name = say(`letter.${kind}`, { reference });
        const answer = season.naming('certifier.notified', letter.id).find((record) => record.at.at >= letter.at.at);
        if (answer === undefined) {
          return now < end
            ? due(book, end, say(`due.letter.${kind}`, { reference }), say('certifier-due.open', { name, dueOn }), {
                recordIds: [letter.id],
              })
            : broken(book, say('certifier-due.late', { name, dueOn }), {
                recordIds: [letter.id],
                since: end,
              });
        }
        return atEitherEnd(answer.at, (at) => {
          const day = dayOf(season, at);
          const evidence = {
            recordIds: [letter.id, answer.id],
            figures: [
              { name: 'dueOn', value: dueOn },
              { name: 'answeredOn', value: day },
            ],
          };
          const said = say('certifier-due.answered', { name, dueOn, day });
          return day > dueOn ? broken(book, said, evidence) : met(book, said, evidence);
        });
      });
      return (
        worst(judgements, (n) => say('certifier-due.more', { n })) ??
        notApplicable(limits(now), say('certifier-due.none'))
      );
    },
  },
});

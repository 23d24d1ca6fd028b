import { answer } from './answer.ts';
import { april } from './april.ts';
import { august } from './august.ts';
import { Diary, type Entry } from './diary.ts';
import { farm } from './farm.ts';
import { july } from './july.ts';
import { june } from './june.ts';
import { may } from './may.ts';
import { ownPile } from './pile.ts';

export { seasonYear, timeZone } from './calendar.ts';
export type { Entry, Hand, Known, Written } from './diary.ts';

/**
 * One season of Quillfen Growers, April to August of the year given, as records in the order in which they were
 * delivered. Farm, people and everything that happens are invented; the mistakes are the kind that honest people make.
 */
export function writeSeason(year: number): readonly Entry[] {
  const diary = new Diary(year);
  const quillfen = farm(diary);
  const compost = ownPile(diary, quillfen.stores);
  const { t05 } = april(quillfen);
  const { l01 } = may(quillfen);
  june(quillfen);
  july(quillfen);
  august(quillfen, compost);

  const late = t05.loads[1];
  if (late !== undefined)
    answer(quillfen, '05-05 17:00', {
      ...{ rule: 'hold-maximum', about: ['draw', late.drawId] },
      cause: "The drench rig's pump failed; the tea stood for seven hours before it was mended.",
      action: 'A spare pump was bought. Tea that cannot go out keeps its air on.',
    });
  answer(quillfen, '06-08 10:00', {
    ...{ rule: 'vessel-clean', about: ['batch', l01] },
    cause: 'The Silo ran nineteen days before it was emptied and washed.',
    action: 'The next run was planned for thirteen days.',
  });
  return diary.entries;
}

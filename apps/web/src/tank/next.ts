import type { Batch, Season } from '@furrowmark/domain';
import type { Engine } from '../season/engine.ts';
import type { FormId } from './forms/ids.ts';

/** What is expected next at a tank. */
export interface Next {
  readonly form: FormId;
  /** Until when, or (`from`) from when on; null where nothing says when. */
  readonly at: number | null;
  readonly side: 'from' | 'by';
  readonly ruleId: string | null;
}

const answers: Readonly<Record<string, { readonly form: FormId; readonly side: 'from' | 'by' }>> = {
  'record oxygen': { form: 'oxygen', side: 'by' },
  'look, smell and record': { form: 'look', side: 'by' },
  'put the air on': { form: 'airOn', side: 'by' },
  'get the air back on by this time': { form: 'airOn', side: 'by' },
  'add the first ingredient from this time on': { form: 'ingredient', side: 'from' },
  'measure free chlorine again': { form: 'chlorine', side: 'by' },
  'measure total chlorine before the food goes in': { form: 'chlorine', side: 'by' },
  'treat the water and measure total chlorine': { form: 'chlorine', side: 'by' },
  'draw the tea from this time on': { form: 'draw', side: 'from' },
  'draw the tea by this time': { form: 'draw', side: 'by' },
  'apply the tea by this time': { form: 'apply', side: 'by' },
  'empty and clean the tank': { form: 'close', side: 'by' },
};

/** Which record answers what a rule asks for, in its own words; undefined where none at the tank does. */
export const answering = (what: string): Pick<Next, 'form' | 'side'> | undefined => answers[what];

/** A tank that has to be emptied some day is nothing to press for today. */
const halfDay = 12 * 3_600_000;

/** Everything that is due at a tank, the most pressing first; the first is what stands on the large control. */
export function expected(engine: Engine, season: Season, batch: Batch, now: number): readonly Next[] {
  const due = engine.rules.allDue(season, batch.id, now).flatMap((each): Next[] => {
    const answer = answering(each.what);
    if (answer === undefined || (answer.form === 'close' && each.at - now > halfDay)) return [];
    return [{ ...answer, at: each.at, ruleId: each.ruleId }];
  });
  const own = byPhase(batch);
  // What may be done "from" a time on does not press before that time; what must be done "by" a time does.
  const pressing = due.filter(({ side }) => side === 'by');
  const [first] = pressing;
  const opening = due.filter(({ side }) => side === 'from');
  if (first !== undefined) {
    return batch.phase === 'brewing' || batch.phase === 'holding'
      ? [...pressing, ...opening]
      : [...opening, ...pressing];
  }
  if (opening.length > 0) return opening;
  return own === null ? [] : [own];
}

function byPhase(batch: Batch): Next | null {
  const next = (form: FormId): Next => ({ form, at: null, side: 'by', ruleId: null });
  switch (batch.phase) {
    case 'open':
      return next('fill');
    case 'filled':
      return batch.kind === 'aeratedTea' ? next('airOn') : next('ingredient');
    case 'aerating':
      return next('ingredient');
    case 'brewing':
      return batch.draws.some(({ applicationId, ended }) => applicationId === null && ended.length === 0)
        ? next('apply')
        : next('oxygen');
    case 'holding':
      return teaLeft(batch) ? next('apply') : next('close');
    default:
      return null;
  }
}

/** More than a tenth of what went in, the tolerance of the volume account, is still in the tank. */
export function teaLeft(batch: Batch): boolean {
  const content = batch.content.at(-1)?.litres.toNumber();
  return content === undefined || content > batch.volume.filledL.toNumber() / 10;
}

/** What else is likely now, the likeliest first. */
export function likely(batch: Batch): readonly FormId[] {
  switch (batch.phase) {
    case 'open':
      return ['fill', 'close'];
    case 'filled':
      return ['airOn', 'chlorine', 'fill'];
    case 'aerating':
      return ['ingredient', 'chlorine', 'neutralizer', 'oxygen', 'airOff'];
    case 'brewing':
      return ['oxygen', 'look', 'ingredient', 'draw', 'apply', 'airOff'];
    case 'holding':
      return ['apply', 'oxygen', 'look', 'draw', 'airOn', 'close'];
    default:
      return ['look'];
  }
}

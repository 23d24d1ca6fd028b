import { isQuantity } from '../../tank/forms/form.ts';
import type { Asked } from '../register/doubt.ts';
import type { Fact } from '../RecordForm.tsx';

/** What may well be a slip of the pen in what happened, though it can be recorded: the words for it, or null. */
export type HappenedDoubt = 'restLeadsNowhere' | 'restAboveLoad' | null;

interface Litres {
  readonly toNumber: () => number;
}
/** What is known of a batch's loads, as the season has it. */
interface Known {
  readonly season: {
    readonly batch: (id: string) =>
      | {
          readonly draws: readonly {
            readonly id: string;
            readonly litres: Litres | null;
            readonly ended: readonly { readonly litres: Litres | null }[];
          }[];
        }
      | undefined;
  };
  readonly engine: { readonly domain: Pick<Asked, 'numberIn'> };
}

/** A rest this much above what is left by the books is only a matter of rounding. */
const rounding = 1.001;

/** What is doubtful in it. `about`: the members that say of which thing. */
export function doubtOf(
  { type, data }: Pick<Fact, 'type' | 'data'>,
  about: Readonly<Record<string, unknown>>,
  { season, engine }: Known,
): HappenedDoubt {
  if (type !== 'draw.ended') return null;
  const load = season.batch(String(about['batchId']))?.draws.find(({ id }) => id === data['drawId']);
  const rest = isQuantity(data['volume']) ? engine.domain.numberIn(data['volume'], 'L') : null;
  if (load !== undefined && load.litres !== null && rest !== null) {
    // What was told of it already is not there any more.
    const left = load.ended.reduce((sum, { litres }) => sum - (litres?.toNumber() ?? 0), load.litres.toNumber());
    if (rest > left * rounding) return 'restAboveLoad';
  }
  return data['fate'] === 'carriedOver' && data['intoBatchId'] === undefined ? 'restLeadsNowhere' : null;
}

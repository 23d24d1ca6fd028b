import type { Lot, Season } from '@furrowmark/domain';
import { shownQuantity } from '../quantity/text.ts';
import type { FormContext, Option } from '../tank/forms/form.ts';
import { materialName } from './materialName.ts';

/** What is left of a lot by the books, in its own unit; null where an amount did not convert. */
export function leftOf(lot: Lot): number | null {
  let left = 0;
  for (const { kind, amount } of lot.movements) {
    if (amount === null) return null;
    if (kind === 'received') left += amount.toNumber();
    else if (kind === 'counted') left = amount.toNumber();
    else left -= amount.toNumber();
  }
  return left;
}

/** Why a lot should not be used on a day, as far as this phone knows; null where nothing speaks against it. */
export function troubleOf(season: Season, lot: Lot, day: string, w: FormContext['w']): string | null {
  const recall = lot.recalls.at(-1);
  if (recall !== undefined) return w.lotRecalled(recall.data.reason);
  const hold = lot.holds.at(-1);
  if (hold?.type === 'lot.held') return w.lotHeld(hold.data.reason);
  if (lot.expiresOn !== undefined && lot.expiresOn < day) return w.lotExpired(lot.expiresOn);
  const material = season.material(lot.materialId);
  if (material !== undefined && lot.origin.kind === 'received') {
    const begun = material.approvals.filter(({ data }) => data.from <= day);
    const stands = begun.some(
      ({ data }) =>
        (data.until === undefined || data.until >= day) &&
        !material.withdrawals.some(
          (gone) => gone.data.by === data.by && gone.data.from >= data.from && gone.data.from <= day,
        ),
    );
    if (!stands) {
      const ended = [...begun.map(({ data }) => data.until), ...material.withdrawals.map(({ data }) => data.from)]
        .filter((each) => each !== undefined)
        .toSorted()
        .at(-1);
      return ended === undefined ? w.lotNotApproved : w.lotEnded(ended);
    }
  }
  const left = leftOf(lot);
  return left !== null && left <= 0 ? w.lotEmpty : null;
}

/** First expiring first, then what came first. */
export function byExpiry(a: Lot, b: Lot): number {
  const [x, y] = [a.expiresOn ?? '9', b.expiresOn ?? '9'];
  return x < y ? -1 : x > y ? 1 : a.at.at - b.at.at;
}

/**
 * Lots to pick from, the likeliest first: what the recipe asks for and is not in yet, other usable ones, then those
 * that should not be used, each with its reason.
 */
export function lotOptions(
  context: FormContext,
  wanted: readonly string[],
  fits: (lot: Lot) => boolean,
): readonly Option[] {
  const { season, engine, now, w, language, settings } = context;
  const day = engine.domain.dateOn(now, season.timeZone);
  const rank = (lot: Lot): number => {
    const place = wanted.indexOf(lot.materialId);
    return place === -1 ? wanted.length : place;
  };
  return season
    .lots()
    .filter(fits)
    .map((lot) => ({ lot, trouble: troubleOf(season, lot, day, w) }))
    .filter(({ lot, trouble }) => trouble !== w.lotEmpty || rank(lot) < wanted.length)
    .sort(
      (a, b) =>
        Number(a.trouble !== null) - Number(b.trouble !== null) || rank(a.lot) - rank(b.lot) || byExpiry(a.lot, b.lot),
    )
    .map(({ lot, trouble }): Option => {
      const name = materialName(context, lot.materialId, now);
      const left = leftOf(lot);
      const unit = season.unitOfLot(lot.id) ?? lot.quantity.unit;
      const rest =
        left === null
          ? ''
          : w.lotLeft(shownQuantity({ value: Number(left.toPrecision(4)), unit }, language, settings.units, engine));
      return {
        value: lot.id,
        label: `${lot.code} · ${name}`,
        detail: [rank(lot) < wanted.length ? w.inRecipe : '', rest].filter((part) => part !== '').join(' · '),
        ...(trouble === null ? {} : { trouble }),
      };
    });
}

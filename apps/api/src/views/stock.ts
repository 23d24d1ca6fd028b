import {
  asOf,
  dateOn,
  decimal,
  type Decimal,
  type Instant,
  type Lot,
  type Season,
  type StockLot,
} from '@furrowmark/domain';
import { ruleById, ruleBookOf } from '@furrowmark/rules';

/** What is left of a lot by the books: what came in less what went out, a count setting it anew. */
export function balanceOf(lot: Lot, until: Instant): Decimal {
  let balance = decimal(0);
  for (const { kind, at, amount } of lot.movements) {
    if (at.at > until || amount === null) continue;
    if (kind === 'counted') balance = amount;
    else balance = kind === 'received' ? balance.plus(amount) : balance.minus(amount);
  }
  return balance;
}

/** Lots with something left, and whether each may be used at that time. */
export function stockAt(season: Season, at: Instant): StockLot[] {
  return season.lots().flatMap((lot): StockLot[] => {
    const balance = balanceOf(lot, at);
    const unit = season.unitOfLot(lot.id);
    if (unit === null || !balance.gt(0)) return [];
    const { id, materialId, code, expiresOn } = lot;
    return [
      {
        lotId: id,
        materialId,
        code,
        balance,
        unit,
        expiresOn: expiresOn ?? null,
        receivedAt: lot.at.at,
        unusable: unusable(season, lot, at),
      },
    ];
  });
}

/** Why a lot may not be used, in words that follow its code; null where it may. */
function unusable(season: Season, lot: Lot, at: Instant): string | null {
  if (lot.recalls.length > 0) return 'was recalled';
  if (lot.holds.at(-1)?.type === 'lot.held') return 'is on hold';
  const rule = ruleById('input-approved');
  const asked = rule?.limitsIn(ruleBookOf(season), at).enabled ?? false;
  return asked && !isApproved(season, lot, at) ? 'has no approval on that day' : null;
}

function isApproved(season: Season, { materialId }: Lot, at: Instant): boolean {
  const material = season.material(materialId);
  if (material === undefined) return false;
  // Own compost and what is no input to the ground is judged by other rules.
  const { kind } = asOf(material, at);
  if (kind === 'compost' || kind === 'vermicompost' || kind === 'sanitizer') return true;
  const day = dateOn(at, season.timeZone);
  return material.approvals.some(({ data: approval }) => {
    const { from, until } = approval;
    if (from > day || (until !== undefined && until < day)) return false;
    return !material.withdrawals.some(({ data }) => data.from <= day && data.from >= from);
  });
}

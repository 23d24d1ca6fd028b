import { decimal, type Decimal, type Lot } from '@furrowmark/domain';

/** Whether something of a lot is still on the shelf by its records; so it is where an amount cannot be read. */
export function stockLeft({ movements }: Lot): boolean {
  let balance: Decimal = decimal(0);
  for (const { kind, amount } of movements) {
    if (amount === null) return true;
    balance = kind === 'counted' ? amount : kind === 'received' ? balance.plus(amount) : balance.minus(amount);
  }
  return balance.gt(0);
}

import type { Material } from '@furrowmark/domain';

/** Approvals in force on a day: begun, not ended, not withdrawn by whoever gave them. */
export function approvalsInForce(material: Material, day: string): readonly Material['approvals'][number][] {
  return material.approvals.filter(({ data }) => {
    if (data.from > day || (data.until !== undefined && data.until < day)) return false;
    return !material.withdrawals.some(
      (withdrawal) =>
        withdrawal.data.by === data.by &&
        withdrawal.data.from >= data.from &&
        withdrawal.data.from <= day &&
        (withdrawal.data.until === undefined || withdrawal.data.until >= day),
    );
  });
}

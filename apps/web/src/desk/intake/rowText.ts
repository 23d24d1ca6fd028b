import { memberOf, numberOf, textOf } from '../../http/read.ts';
import type { SentRecord } from '../../store/queued.ts';

const quantity = (value: unknown): string | null => {
  const [amount, unit] = [numberOf(value, 'value'), textOf(value, 'unit')];
  return amount === null || unit === null
    ? null
    : `${String(amount)} ${unit.replace(/^\[(.*?)(_av|_us|_i)?\]$/, '$1')}`;
};

/** What a row would record, in short: its names, quantities, days. */
export function shownOf(records: readonly SentRecord[]): string {
  return records
    .map(({ data, occurredAt }) => {
      const personal = memberOf(data, 'personal');
      const parts = [
        ...['code', 'name', 'crop', 'supplierLot', 'kind', 'landStatus', 'ediblePart', 'plantedOn', 'reference'].map(
          (name) => textOf(data, name),
        ),
        textOf(personal, 'name'),
        ...['quantity', 'area', 'dissolvedOxygen', 'temperature'].map((name) => quantity(memberOf(data, name))),
        memberOf(data, 'boundary') === undefined ? null : '▱',
        memberOf(data, 'dissolvedOxygen') === undefined
          ? occurredAt.slice(0, 10)
          : occurredAt.slice(0, 16).replace('T', ' '),
      ];
      return parts.filter((part) => part !== null && part !== '').join(' · ');
    })
    .join('; ');
}

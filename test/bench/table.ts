import type { Row, Spread } from './measure.ts';

/** The rows as a table in Markdown: medians, in brackets least to most. */
export function tableOf(rows: readonly Row[]): string {
  const lines = rows.map(({ work, beside, unit, ours, peer, ratio, aim, reached, remark }) =>
    [
      work,
      `${shown(ours)} ${unit}`,
      beside ?? '–',
      peer === null ? '–' : `${shown(peer)} ${unit}`,
      ratio === null ? '–' : shown(ratio),
      aim,
      reached ? 'reached' : '**short**',
      remark ?? '',
    ].join(' | '),
  );
  const head = ['work', 'here', 'beside', 'there', 'ratio', 'aim', '', 'remark'];
  return [head.join(' | '), head.map(() => '---').join(' | '), ...lines].map((line) => `| ${line} |`).join('\n');
}

const shown = ({ median, least, most }: Spread): string =>
  least === most ? figure(median) : `${figure(median)} (${figure(least)} to ${figure(most)})`;

const figure = (value: number): string =>
  value >= 100 ? Math.round(value).toLocaleString('en') : value >= 10 ? value.toFixed(1) : value.toFixed(2);

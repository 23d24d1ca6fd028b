import type { Season } from '@furrowmark/domain';

/** The code after the highest of the last batch's row: `T-31` → `T-32`. */
export function nextCode(season: Season): string {
  const batches = season.batches().toSorted((a, b) => (a.opened?.at.at ?? 0) - (b.opened?.at.at ?? 0));
  const parts = /^(|.*\D)(\d+)$/.exec(batches.at(-1)?.code ?? '');
  if (parts === null) return 'T-1';
  const [, row = '', figures = ''] = parts;
  const highest = batches.reduce((most, { code }) => {
    const n = code.startsWith(row) ? Number(code.slice(row.length)) : NaN;
    return Number.isInteger(n) && n > most ? n : most;
  }, Number(figures));
  return row + String(highest + 1).padStart(figures.length, '0');
}

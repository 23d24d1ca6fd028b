/**
 * The decimal sign that a table's own figures show; a point where they do not tell. `12,5` shows a comma; `1,000` shows
 * nothing, and of `27.11.2026` no part is a figure.
 */
export function decimalIn(table: string): '.' | ',' {
  const [heading = ''] = table.split('\n', 1);
  // Where commas part the columns, no decimal comma stands bare.
  if (!/[;\t]/.test(heading)) return '.';
  const commas = /(?<![\d.,])\d+,(?:\d{1,2}|\d{4,})(?![\d.,])/.test(table);
  const points = /(?<![\d.,])\d+\.(?:\d{1,2}|\d{4,})(?![\d.,])/.test(table);
  return commas && !points ? ',' : '.';
}

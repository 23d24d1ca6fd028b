/** What the text becomes when a key is pressed: one decimal sign, no more digits than a reading has. */
export function pressed(text: string, key: string): string {
  if (key === '⌫') return text.slice(0, -1);
  if (key === '.') return text.includes('.') ? text : text === '' ? '0.' : `${text}.`;
  const next = text === '0' ? key : text + key;
  return next.replace('.', '').length > 9 ? text : next;
}

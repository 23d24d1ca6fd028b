/** Initials of a name: the first letter of its first and of its last word, `TQ` for Tobin Quay. */
export function initialsOf(name: string): string {
  const words = name.trim().split(/\s+/);
  const letters = [words[0], words.length > 1 ? words.at(-1) : undefined].map((word) => [...(word ?? '')][0] ?? '');
  return letters.join('').toLocaleUpperCase();
}

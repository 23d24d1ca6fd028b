/** Edits (a letter added, dropped or changed) that turn one text into the other. */
function distance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(change, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}

/** The candidate that was probably meant; null where none is near. Case does not count as a difference. */
export function nearest(written: string, candidates: Iterable<string>): string | null {
  if (written.length > 60) return null;
  let best: { readonly candidate: string; readonly edits: number } | null = null;
  for (const candidate of candidates) {
    const edits = distance(written.toLowerCase(), candidate.toLowerCase());
    if (edits <= Math.max(1, Math.floor(candidate.length / 4)) && (best === null || edits < best.edits))
      best = { candidate, edits };
  }
  return best?.candidate ?? null;
}

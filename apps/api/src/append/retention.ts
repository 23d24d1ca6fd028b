/**
 * Records of an organic operation are kept for not less than five years beyond their creation
 * (7 CFR 205.103(b)(3)); a person's name is part of them that long.
 */
const years = 5;

/** The day (UTC) until which a person is kept, given when the last record by or about them was made; null once over. */
export function retainedUntil(lastRecord: number | undefined, now: string): string | null {
  if (lastRecord === undefined || lastRecord === -Infinity) return null;
  const until = new Date(lastRecord);
  until.setUTCFullYear(until.getUTCFullYear() + years);
  return until.getTime() > Date.parse(now) ? until.toISOString().slice(0, 10) : null;
}

import type { Batch, Instant, Span } from '@furrowmark/domain';

export interface AirSpan {
  readonly from: Instant;
  readonly to: Instant;
  readonly running: boolean;
  /** How long the air was off, with its bounds; null where it ran. */
  readonly minutes: Span | null;
}

/** Air on and off through the batch's life, up to the end of what is shown. */
export function airSpans(batch: Batch, end: Instant): AirSpan[] {
  const [first] = batch.airStarts;
  if (first === undefined) return [];
  const spans: AirSpan[] = [];
  let running = first.at.at;
  const stop = batch.airOff?.at ?? end;
  for (const { stopped, restarted, minutes } of batch.interruptions.toSorted((a, b) => a.stopped.at - b.stopped.at)) {
    if (restarted === null || stopped.at >= stop) continue;
    // Where the time is not exact the gap is drawn as long as it may have been: what is certain is only the rest.
    spans.push({ from: running, to: stopped.from, running: true, minutes: null });
    spans.push({ from: stopped.from, to: restarted.to, running: false, minutes });
    running = restarted.to;
  }
  if (stop > running) spans.push({ from: running, to: stop, running: true, minutes: null });
  return spans.filter(({ from, to }) => to > from);
}

/** From the batch's first event to its last, or to now while it is open. */
export function timeOf(batch: Batch, now: Instant): { readonly from: Instant; readonly to: Instant } {
  const at = [
    ...batch.fills.flatMap(({ started, finished }) => [started.at, finished.at]),
    ...batch.airStarts.map((start) => start.at.at),
    ...batch.ingredients.map((ingredient) => ingredient.at.at),
    ...batch.oxygen.map((reading) => reading.at.at),
    ...batch.draws.flatMap((draw) => [draw.at.at, draw.appliedUntil?.at ?? draw.at.at]),
    ...(batch.airOff === null ? [] : [batch.airOff.at]),
    ...(batch.closed === null ? [] : [batch.closed.at.at]),
  ];
  if (at.length === 0) return { from: now, to: now };
  const from = at.reduce((a, b) => Math.min(a, b));
  const last = at.reduce((a, b) => Math.max(a, b));
  const to = batch.closed === null && batch.airOff === null ? Math.max(last, Math.min(now, last + 86_400_000)) : last;
  return { from, to };
}

/** The same with a little air on both sides, for a picture. */
export function shownTime(batch: Batch, now: Instant): { readonly from: Instant; readonly to: Instant } {
  const { from, to } = timeOf(batch, now);
  const margin = from === to ? 0 : Math.max((to - from) * 0.02, 600_000);
  return { from: from - margin, to: to + margin };
}

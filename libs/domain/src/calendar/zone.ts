import { Temporal } from 'temporal-polyfill';
import type { Instant } from '../facts/time.ts';

/** A stretch of time through which a zone keeps one offset from UTC: `from` ≤ t < `to`. */
export interface OffsetSpan {
  readonly from: Instant;
  readonly to: Instant;
  /** Local time minus UTC, milliseconds. */
  readonly offset: number;
}

/** Per zone the spans met so far, the one last used first to look at: reading a season asks for the same few. */
const spans = new Map<string, OffsetSpan[]>();
const mostZones = 200;

/** The zone's offset span at an instant. Throws RangeError for a zone that the time zone database does not have. */
export function spanAt(instant: Instant, zone: string): OffsetSpan {
  let met = spans.get(zone);
  if (met === undefined) {
    if (spans.size >= mostZones) spans.clear();
    met = [];
    spans.set(zone, met);
  }
  for (let i = 0; i < met.length; i++) {
    const span = met[i];
    if (span === undefined || instant < span.from || instant >= span.to) continue;
    if (i > 0) {
      met.splice(i, 1);
      met.unshift(span);
    }
    return span;
  }
  const span = lookUp(instant, zone);
  met.unshift(span);
  return span;
}

function lookUp(instant: Instant, zone: string): OffsetSpan {
  // Floor, so that a fraction of a millisecond before a change stays before it.
  const at = Temporal.Instant.fromEpochMilliseconds(Math.floor(instant)).toZonedDateTimeISO(zone);
  const next = at.getTimeZoneTransition('next');
  // `previous` excludes its own instant, so ask from one nanosecond later: a change exactly now begins this span.
  const previous = at.add({ nanoseconds: 1 }).getTimeZoneTransition('previous');
  return {
    from: previous?.epochMilliseconds ?? -Infinity,
    to: next?.epochMilliseconds ?? Infinity,
    offset: at.offsetNanoseconds / 1e6,
  };
}

const zones = new Map<string, boolean>();

/** Whether the text names a zone of the IANA time zone database (`America/Chicago`, `UTC`); bare offsets are not. */
export function isZone(text: string): boolean {
  const before = zones.get(text);
  if (before !== undefined) return before;
  const found = /^[A-Za-z][A-Za-z0-9_+-]*(\/[A-Za-z0-9_+-]+)*$/.test(text) && text.length <= 64 && accepted(text);
  if (zones.size >= 1000) zones.clear();
  zones.set(text, found);
  return found;
}

function accepted(zone: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}

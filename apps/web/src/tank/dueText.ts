import { spanText, together, whenText } from '../clock/text.ts';
import type { Language } from '../words/catalogue.ts';
import type { Next } from './next.ts';
import type { TankWords } from './useTank.ts';

/** Below it a span would read as 0 min, ms. */
const halfMinute = 30_000;

/**
 * `by 10:00 · 2 h 10 left`; `from 05:10 · in 3 h`; `by 09:00 · 25 min late`; within half a minute of it `by 09:00 · now`. Empty
 * where nothing says when.
 */
export function dueText(next: Next, now: number, zone: string, language: Language, w: TankWords): string {
  if (next.at === null) return '';
  const at = whenText(next.at, zone, language, now);
  const wait = next.at - now;
  const away = together(spanText(Math.abs(wait)));
  if (next.side === 'from') return `${w.from(at)} · ${wait < halfMinute ? w.now : w.inSpan(away)}`;
  return `${w.by(at)} · ${Math.abs(wait) < halfMinute ? w.now : wait > 0 ? w.left(away) : w.late(away)}`;
}

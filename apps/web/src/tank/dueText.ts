import { spanText, together, whenText } from '../clock/text.ts';
import type { Language } from '../words/catalogue.ts';
import type { Next } from './next.ts';
import type { TankWords } from './useTank.ts';

/** `by 10:00 · 2 h 10 left`; `from 05:10 · in 3 h`; `by 09:00 · 25 min late`. Empty where nothing says when. */
export function dueText(next: Next, now: number, zone: string, language: Language, w: TankWords): string {
  if (next.at === null) return '';
  const at = whenText(next.at, zone, language, now);
  const away = together(spanText(Math.abs(next.at - now)));
  if (next.side === 'from') return next.at <= now ? `${w.from(at)} · ${w.now}` : `${w.from(at)} · ${w.inSpan(away)}`;
  return `${w.by(at)} · ${next.at >= now ? w.left(away) : w.late(away)}`;
}

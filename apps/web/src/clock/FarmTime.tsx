import { useWords } from '../words/useWords.ts';
import { offsetAt } from './local.ts';
import { clockText } from './text.ts';

interface Props {
  readonly zone: string;
  /** ms since 1970. */
  readonly now: number;
}

/** Where the device's own clock shows another time: whose the times on this page are, and what that clock says now. */
export function FarmTime({ zone, now }: Props) {
  const w = useWords();
  // The browser's own zone, asked for without a format: its first use holds a phone.
  const ahead = -new Date(now).getTimezoneOffset() * 60_000;
  if (ahead === offsetAt(now, zone)) return null;
  const here = new Date(now + ahead).toISOString().slice(11, 16);
  return <p className="faint small">{w.farmTime(clockText(now, zone), here)}</p>;
}

import { dayText } from '../clock/text.ts';
import { session } from '../session/session.ts';
import { settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';

/** Says an instant as a day of the operation's zone, in the device's language; empty for what is none. */
export function useDay(): (instant: string) => string {
  const { language } = useExternal(settings);
  const zone = useExternal(session)?.timeZone ?? 'UTC';
  return (instant) => (Number.isNaN(Date.parse(instant)) ? '' : dayText(Date.parse(instant), zone, language));
}

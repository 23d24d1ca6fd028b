import { localText } from '@furrowmark/domain';
import type { Letter } from '../archive/index.ts';
import type { KeptChoice } from './choices.ts';
import type { Alert, Bundle } from './outbox.ts';
import { letterWords, whatIn } from './words.ts';

interface Written {
  readonly choice: KeptChoice;
  readonly bundle: Bundle;
  readonly operation: string;
  readonly timeZone: string;
  /** How a rule is called in the person's language. */
  readonly titleOf: (ruleId: string, language: 'en' | 'es') => string;
}

const oneLine = (text: string): string => text.replaceAll(/\s+/g, ' ').trim();

/** One letter with everything that a person is to be told now: code, what, when; nothing that anybody wrote besides codes. */
export function alertLetter({ choice, bundle, operation, timeZone, titleOf }: Written): Letter {
  const { language, address } = choice;
  const w = letterWords[language];
  const locale = language === 'es' ? 'es-US' : 'en-US';
  const said = ({ kind, code, what, ruleId, at }: Alert): string =>
    `${oneLine(code)}: ${kind === 'due' ? whatIn(what, language) : titleOf(ruleId, language)} (${localText(at, timeZone, locale)})`;
  // Of one thing that fell due twice in the night, advised and at the latest, only the later is told.
  const alerts = bundle.alerts.filter(
    (each, index) =>
      !bundle.alerts.slice(index + 1).some(({ kind, findingId }) => kind === each.kind && findingId === each.findingId),
  );
  const part = (heading: string, kind: Alert['kind']): string => {
    const lines = alerts.filter((alert) => alert.kind === kind).map((alert) => `- ${said(alert)}`);
    return lines.length === 0 ? '' : `${heading}\n\n${lines.join('\n')}\n\n`;
  };
  const [first] = alerts;
  const short =
    first === undefined
      ? ''
      : `${oneLine(first.code)}, ${first.kind === 'due' ? whatIn(first.what, language) : titleOf(first.ruleId, language)}`;
  return {
    to: address,
    subject: w.subject(oneLine(operation).slice(0, 60), short, alerts.length - 1).slice(0, 200),
    text: `${part(w.due, 'due')}${part(w.broken, 'broken')}${w.open}\n\n${w.caution}\n\n${w.why}\n`,
    id: bundle.letterId,
  };
}

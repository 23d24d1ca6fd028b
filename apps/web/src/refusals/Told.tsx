import { useEffect } from 'react';
import type { Answer } from '../http/ask.ts';
import { settings } from '../session/settings.ts';
import { external, useExternal } from '../store/external.ts';

type Teller = typeof import('./told.ts');

/** The sentences, once something was to be told in Spanish: most days nothing is refused, and no page waits for them. */
const teller = external<Teller | null>(null);

async function load(): Promise<Teller | null> {
  try {
    teller.set(await import('./told.ts'));
  } catch {
    // Without reception it is told as it came.
  }
  return teller.get();
}

interface Props {
  readonly text: string;
}

/** What the core or the service said, in the language of this device as far as it is known there. */
export function Told({ text }: Props) {
  const { language } = useExternal(settings);
  const known = useExternal(teller);
  useEffect(() => {
    if (language !== 'en' && known === null) void load();
  }, [language, known]);
  const said = known?.told(text, language) ?? { text, language: 'en' };
  return <span lang={said.language}>{said.text}</span>;
}

/** The same as a text. */
export async function toldHere(text: string): Promise<string> {
  const { language } = settings.get();
  return language === 'en' ? text : ((await load())?.told(text, language).text ?? text);
}

interface TroubleProps {
  /** An answer that is not good. */
  readonly answer: Exclude<Answer, { kind: 'ok' }>;
  readonly w: Words;
}

interface Words {
  readonly signedOut: string;
  readonly needsReception: string;
  readonly busy: (seconds: number) => string;
}

/** What was refused, sentence by sentence: the service's own words, and which entry they are about. */
function refusalsIn(answer: TroubleProps['answer']): readonly string[] {
  if (answer.kind !== 'refused') return [];
  const { detail, errors } = answer.problem;
  return [detail, ...errors.map((each) => each.detail).filter((text) => !detail.includes(text))];
}

const otherwise = (answer: TroubleProps['answer'], w: Words): string =>
  answer.kind === 'ended' ? w.signedOut : answer.kind === 'busy' ? w.busy(answer.seconds) : w.needsReception;

/** What an answer that is not good says to a person. */
export function Trouble({ answer, w }: TroubleProps) {
  if (answer.kind !== 'refused') return otherwise(answer, w);
  return refusalsIn(answer).map((text, i) => (
    <span key={text}>
      {i > 0 && ' '}
      <Told text={text} />
    </span>
  ));
}

/** The same as a text. */
export async function saidOf(answer: TroubleProps['answer'], w: Words): Promise<string> {
  if (answer.kind !== 'refused') return otherwise(answer, w);
  return (await Promise.all(refusalsIn(answer).map(toldHere))).join(' ');
}

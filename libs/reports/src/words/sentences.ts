/**
 * A sentence as the core or the service says it, and in Spanish. `{name}` is what a sentence fills in, and stays as it
 * is; `{name:told}` is itself told, `{name:list}` and `{name:or}` are told part by part.
 */
export type Sentence = readonly [en: string, es: string];

/** One sentence, or the part of one, in Spanish; null where it is not known. */
export type Teller = (text: string) => string | null;

type Kind = 'kept' | 'told' | 'list' | 'or';
interface Reader {
  readonly pattern: RegExp;
  readonly slots: readonly { readonly name: string; readonly kind: Kind }[];
  readonly es: string;
}

const slot = /\{(\w+)(?::(told|list|or))?\}/g;
const kindOf = (text: string | undefined): Kind =>
  text === 'told' || text === 'list' || text === 'or' ? text : 'kept';

function readerOf([en, es]: Sentence): Reader {
  const slots = [...en.matchAll(slot)].map(([, name = '', kind]) => ({ name, kind: kindOf(kind) }));
  const between = en.split(/\{\w+(?::\w+)?\}/).map((text) => text.replaceAll(/[$()*+.?[\\\]^{|}]/g, '\\$&'));
  return { pattern: new RegExp(`^${between.join('(.+?)')}$`, 's'), slots, es };
}

/** Tells these sentences; the first that fits counts. Their patterns are made when something is told for the first time. */
export function tellerOf(sentences: readonly Sentence[]): Teller {
  let made: readonly Reader[] | null = null;
  /** What fills a slot; null where it has to be told and is not known. */
  const filled = (text: string, kind: Kind): string | null => {
    if (kind === 'kept') return text;
    const [between, joined] = kind === 'or' ? [', or ', ', o '] : kind === 'list' ? [', ', ', '] : [null, ''];
    const told = (between === null ? [text] : text.split(between)).map(tell);
    return told.includes(null) ? null : told.join(joined);
  };
  const tell: Teller = (text) => {
    made ??= sentences.map(readerOf);
    for (const { pattern, slots, es } of made) {
      const found = pattern.exec(text);
      if (found === null) continue;
      const given = new Map(slots.map(({ name, kind }, i) => [name, filled(found[i + 1] ?? '', kind)]));
      if ([...given.values()].includes(null)) continue;
      return es.replaceAll(slot, (_, name: string) => given.get(name) ?? '');
    }
    return null;
  };
  return tell;
}

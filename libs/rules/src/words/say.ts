import type { ArgumentsOf, Said } from './message.ts';
import type { messages, MessageKey } from './messages/index.ts';

type Given<K extends MessageKey> = ArgumentsOf<(typeof messages)[K]['en']>;

/** A sentence of the catalogue with what fills its slots; `tell` puts it into a language. */
export function say<K extends MessageKey>(
  key: K,
  ...given: keyof Given<K> extends never ? readonly [] : readonly [Given<K>]
): Said;
export function say(key: MessageKey, given?: NonNullable<Said['with']>): Said {
  return given === undefined ? { key } : { key, with: given };
}

import type { RecordType } from '@furrowmark/domain';
import { messages, say, type MessageKey, type Said } from '../words/index.ts';

const isKey = (key: string): key is Extract<MessageKey, `record.${string}`> => Object.hasOwn(messages, key);

/** What people call a record of this type; its type where they have no word. */
export function recordWords(type: RecordType): Said | string {
  const key = `record.${type}`;
  return isKey(key) ? say(key) : type;
}

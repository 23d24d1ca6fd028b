export type { Language, Message, Said } from './message.ts';
export { messages, type MessageKey } from './messages/index.ts';
export { once } from './once.ts';
export { say } from './say.ts';
export { isTellable, tell } from './tell.ts';

/**
 * A door of its own for pages that show what the rules said without judging anything: sentences, titles and what is due, in a
 * language, without the rules themselves.
 */
export { dueIn } from './due-in.ts';
export { factsIn } from './engine/words.ts';
export { titleIn } from './title-in.ts';
export type { Language } from './words/index.ts';

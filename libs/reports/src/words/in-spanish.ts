/** A further door: what the app needs to say in Spanish what the core says, without the reports themselves. */
export { memberInSpanish } from './members.ts';
export { tellerOf, type Sentence, type Teller } from './sentences.ts';
export { traceSentences } from './trace-reasons.ts';

export * from './outcome.ts';
export { catalogue, ruleById } from './catalogue.ts';
export type { PackId, Rule } from './engine/rule.ts';
export type { AnyLimits, Limits } from './engine/limits.ts';
export { packs, packsOf, type Pack } from './engine/packs.ts';
export { findingId } from './engine/finding-id.ts';
export { ownWord, wordFor, type BrokenWord } from './engine/words.ts';
export { dueIn, factsIn, titleIn, type Language } from './in-words.ts';
export { figureName, figureWord } from './figure-names.ts';
export { reasonIn } from './reason-in.ts';
export { sourceIn } from './source-in.ts';
export { messageIn } from './message-in.ts';
export type { Said } from './words/index.ts';
export { worseFirst } from './engine/judgement.ts';
export { RuleBook, ruleBookOf, type Adoption, type BookEntry } from './engine/rule-book.ts';
export { evaluate, judgeBatch, judgeSubject, judgeThing } from './engine/evaluate.ts';
export { faultsOf, type Change, type Choice, type Comparison } from './engine/evaluation.ts';
export { batchSubjects } from './engine/batch-subjects.ts';
export { ruleBookAt, ruleBookView, type ParameterView, type RuleBookView, type RuleView } from './rule-book-view.ts';
export { notSwitchedOn, starterEntries, starterRuleIds, type NotSwitchedOn } from './starter-book.ts';
export {
  allDue,
  codeToSend,
  deadlinesOf,
  judgeWithDue,
  tankDeadlines,
  type Deadline,
  type NextDue,
} from './next-due.ts';
export { checkDrafts } from './check-drafts.ts';
export { previewRuleBook } from './preview.ts';
export { judgeAsSigned, outsideSignatures, reviewsOf, type SignedReview } from './as-signed.ts';
export {
  outcomesThatDiffer,
  outcomesToKeep,
  ruleRevisions,
  rulesThatDiffer,
  type Difference,
  type KeptOutcomes,
} from './outcomes-that-differ.ts';
export { answersOf, asFirstWritten, findings, type Answer, type Finding } from './findings.ts';
export { isFinding } from './standing.ts';
export { rulesDocument } from './document.ts';

export * from './outcome.ts';
export { catalogue, ruleById } from './catalogue.ts';
export { evaluate, judgeBatch, judgeSubject, judgeThing, type Choice } from './engine/evaluate.ts';

export { LogKey, originOf } from './log-key.ts';
export { createHead, frontierOf, int8, lockHead, readHead, type Head } from './head.ts';

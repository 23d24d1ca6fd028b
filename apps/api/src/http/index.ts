export { busy, notFound, ProblemAnswer, problemBody, type ProblemBody, type ProblemDetail } from './problem.ts';
export { isProblemType, problemTypes, type ProblemType } from './problem-types.ts';
export { answerProblem, ProblemFilter } from './problem-filter.ts';
export { drain, JsonBody, readBytes, readJson } from './json-body.ts';
export { bodyOf, issuesOf, pointerOf, queryOf, shapeOf, uuidOf } from './parse.ts';
export { dressed, type LogChoice } from './dress.ts';
export { closable } from './closing.ts';
export { allowOrigins } from './origins.ts';
export { answerUnreadable } from './unreadable.ts';

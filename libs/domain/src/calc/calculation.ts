import type { z } from 'zod';

/** Why a calculation was not made, for a grower: in general, and member by member (JSON pointers, RFC 6901). */
export interface Refusal {
  readonly refused: {
    readonly detail: string;
    readonly errors: readonly { readonly pointer: string; readonly detail: string }[];
  };
}

/** Every answer shows its working: the figures put into the formula, and what was assumed. */
export interface Worked {
  readonly working: readonly string[];
  /** What to mind before acting on the figure. Absent when there is nothing. */
  readonly cautions?: readonly string[];
  /** Where the formula or its figures come from. */
  readonly source: string;
}

/** A calculation that anyone may ask for by name; nothing is recorded. */
export interface Calculation<Output extends object = object> {
  readonly name: string;
  readonly title: string;
  readonly source: string;
  /** The shape of the question, also for the published API description. */
  readonly input: () => z.ZodType;
  /** Reads the question, refuses what is impossible, answers the rest. Never throws for bad input. */
  run(question: unknown): Output | Refusal;
}

/** Makes a calculation from its schema and its work on a question that the schema has read. */
export function calculation<Input, Output extends object>(parts: {
  readonly name: string;
  readonly title: string;
  readonly source: string;
  readonly input: () => z.ZodType<Input>;
  readonly work: (question: Input) => Output | Refusal;
}): Calculation<Output> {
  return {
    name: parts.name,
    title: parts.title,
    source: parts.source,
    input: parts.input,
    run(question) {
      const read = parts.input().safeParse(question);
      return read.success ? parts.work(read.data) : unreadable(read.error);
    },
  };
}

export const isRefusal = (answer: object): answer is Refusal => 'refused' in answer;

/** Refuses one member. `path` leads to it from the question: `['readings', 2, 'at']`. */
export function refuse(path: readonly (string | number)[], detail: string): Refusal {
  return { refused: { detail, errors: [{ pointer: pointer(path), detail }] } };
}

function unreadable(error: z.ZodError): Refusal {
  const errors = error.issues.flatMap((issue) =>
    issue.code === 'unrecognized_keys'
      ? issue.keys.map((key) => ({ pointer: pointer([...issue.path, key]), detail: 'is not asked for here' }))
      : [{ pointer: pointer(issue.path), detail: inWords(issue) }],
  );
  const first = errors[0];
  const where =
    first === undefined || first.pointer === '' ? 'The question' : first.pointer.slice(1).replaceAll('/', ' › ');
  return { refused: { detail: `${where}: ${first?.detail ?? 'cannot be read'}.`, errors } };
}

/** zod's own messages speak to programmers; these to whoever filled in the form. */
function inWords(issue: z.core.$ZodIssue): string {
  if (issue.code === 'invalid_type') {
    if (issue.message.endsWith('received undefined')) return 'is missing';
    const kind = { number: 'a number', string: 'a text', array: 'a list', object: 'an object' };
    return `must be ${Object.entries(kind).find(([k]) => k === issue.expected)?.[1] ?? issue.expected}`;
  }
  if (issue.code === 'invalid_value' && issue.message.startsWith('Invalid')) {
    return `must be one of ${issue.values.map(String).join(', ')}`;
  }
  return issue.message;
}

function pointer(path: readonly PropertyKey[]): string {
  return path.map((step) => `/${String(step).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}

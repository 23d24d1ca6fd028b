/** Why a record was refused. Pointers are JSON pointers (RFC 6901) from the record's top: `/data/volume/value`. */
export interface RecordProblem {
  /** Stable; what a client may act on. */
  readonly code: 'malformed' | 'impossible' | 'type-unknown' | 'version-unknown' | 'not-permitted';
  readonly title: string;
  /** What was wrong and what to do, for a grower. */
  readonly detail: string;
  readonly errors: readonly MemberProblem[];
}

export interface MemberProblem {
  readonly pointer: string;
  readonly detail: string;
}

/** The way to a member: names and places in lists. */
export type Path = readonly PropertyKey[];

/** RFC 6901: `~` and `/` inside a name are escaped. */
export const pointerTo = (path: Path): string =>
  path.map((step) => `/${String(step).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');

/** The member's name as people say it: `“targets › 2 › area”`, list places counted from 1. */
export function nameOf(path: Path): string {
  const steps = path[0] === 'data' && path.length > 1 ? path.slice(1) : path;
  if (steps.length === 0) return 'The record';
  return `“${steps.map((step) => (typeof step === 'number' ? String(step + 1) : String(step))).join(' › ')}”`;
}

/** One member's problem; `message` continues the member's name ("must not be negative"). */
export const memberProblem = (path: Path, message: string): MemberProblem => ({
  pointer: pointerTo(path),
  detail: `${nameOf(path)} ${message}.`,
});

const TITLES: Readonly<Record<RecordProblem['code'], string>> = {
  malformed: 'The record is not well formed',
  impossible: 'The record says something impossible',
  'type-unknown': 'There is no such record type',
  'version-unknown': 'This version of the record type is not known here',
  'not-permitted': 'This record may not be written',
};

/** Problems told of one record; a flood of them helps nobody. */
export const MOST_ERRORS = 50;

export function problem(code: RecordProblem['code'], errors: readonly MemberProblem[]): RecordProblem {
  const told = errors.slice(0, MOST_ERRORS);
  const [first, ...others] = told;
  const more = others.length > 0 ? ` (${String(others.length)} more below)` : '';
  return {
    code,
    title: TITLES[code],
    detail: `${first?.detail ?? TITLES[code]}${more}`,
    errors: told,
  };
}

import type { Instant } from '@furrowmark/domain';
import type { Said } from './words/index.ts';

export type Verdict = 'met' | 'caution' | 'broken' | 'due' | 'unknown' | 'notApplicable';
export type Severity = 'notice' | 'minor' | 'major' | 'critical';
/** What stands behind a limit; decides the words a report may use. */
export type Basis = 'regulation' | 'certifier' | 'guideline' | 'ownPlan' | 'practice';

export type SubjectKind =
  | 'batch'
  | 'draw'
  | 'lot'
  | 'pile'
  | 'source'
  | 'vessel'
  | 'equipment'
  | 'instrument'
  | 'application'
  | 'field'
  | 'planting'
  | 'harvest'
  | 'person'
  | 'material'
  | 'operation';

/** The narrowest thing with an id that an outcome speaks of. `code` is what people call it: "T-14", "T-14 · North 4". */
export interface Subject {
  readonly kind: SubjectKind;
  readonly id: string;
  readonly code: string;
}

/** One figure that was compared. `range` where the clock was uncertain. */
export interface Figure {
  readonly name: string;
  readonly value: number | string | null;
  readonly unit?: string;
  readonly range?: readonly [number, number];
  readonly advised?: number;
  readonly limit?: number;
}

/** What a rule says of one subject. */
export interface Outcome {
  readonly ruleId: string;
  readonly revision: number;
  readonly about: Subject;
  readonly outcome: Verdict;
  readonly severity: Severity;
  readonly basis: Basis;
  readonly title: string;
  /** One or two sentences in English that a grower understands, with the figures; never "safe", "compliant" or "pass". `messageIn` says them in another language. */
  readonly message: string;
  /** The same facts before they are put into a language, without the word in front. */
  readonly said: Said;
  readonly figures: readonly Figure[];
  readonly recordIds: readonly string[];
  readonly citation: string;
  /** `seq` of the adoption that set the limits used; null = built-in defaults. */
  readonly ruleBookSeq: number | null;
  /** UUIDv5(operationId, `ruleId|subjectKind|subjectId`). */
  readonly findingId: string;
  /** With `due`: when it falls due. */
  readonly dueAt?: Instant;
  /** With `due`: what to do, in the imperative ("record oxygen"). `dueIn` says it in another language. */
  readonly due?: string;
}

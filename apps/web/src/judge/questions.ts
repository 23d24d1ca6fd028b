import type { Batch } from '@furrowmark/domain';
import type { Finding, Outcome } from '@furrowmark/rules';
import type { AlertFacts } from '../alerts/facts.ts';
import type { SentRecord } from '../store/queued.ts';
import type { TanksView } from '../tank/model.ts';
import type { Language } from '../words/catalogue.ts';

/** A batch as the list of batches shows it. */
export interface BatchLine {
  readonly batchId: string;
  readonly code: string;
  readonly startedAt: number;
  readonly phase: Batch['phase'];
  readonly closed: boolean;
  readonly vesselCode: string;
  /** Codes of the fields it went to. */
  readonly fields: readonly string[];
}

/** How many of a batch's verdicts are of each kind that stands out. */
export interface Marks {
  readonly batchId: string;
  readonly broken: number;
  readonly caution: number;
  readonly unknown: number;
}

/** What may be asked of the worker that judges, and what it answers. Everything is plain data. */
export interface Questions {
  tanks: { readonly ask: { readonly now: number }; readonly answer: TanksView };
  batches: { readonly ask: object; readonly answer: { readonly zone: string; readonly lines: readonly BatchLine[] } };
  marks: {
    readonly ask: { readonly batchIds: readonly string[]; readonly now: number };
    readonly answer: readonly Marks[];
  };
  /** `knownAt`: by what was recorded up to then. */
  judge: {
    readonly ask: { readonly batchId: string; readonly now: number; readonly knownAt: number | null };
    readonly answer: readonly Outcome[];
  };
  /** null: it could not be recorded as it is. */
  check: {
    readonly ask: { readonly drafts: readonly SentRecord[]; readonly now: number };
    readonly answer: readonly Outcome[] | null;
  };
  alerts: { readonly ask: { readonly now: number }; readonly answer: AlertFacts };
  findings: { readonly ask: { readonly now: number }; readonly answer: readonly Finding[] };
  /** Letters of the operation's zone at that moment (`CDT`): the first that a thread asks its browser take it long. */
  zone: { readonly ask: { readonly at: number; readonly language: Language }; readonly answer: string };
}
export type Kind = keyof Questions;
export type Asked = { [K in Kind]: { readonly kind: K; readonly ask: Questions[K]['ask'] } }[Kind];
export type AnswerTo<K extends Kind> = Questions[K]['answer'];

/** How things stand with the season that is judged. `version` rises whenever an answer may be another one. */
export interface Standing {
  readonly kind: 'loading' | 'empty' | 'failed' | 'ready';
  readonly version: number;
  /** Nothing of the past is still on its way. */
  readonly whole: boolean;
}

/** From the page to the worker. */
export type ToWorker =
  | { readonly to: 'hold'; readonly operationId: string }
  | { readonly to: 'answer'; readonly id: number; readonly question: Asked };

/** From the worker to the page. An answer is null where there is no season to judge, or it failed. */
export type FromWorker =
  | { readonly from: 'standing'; readonly standing: Standing }
  | { readonly from: 'answer'; readonly id: number; readonly answer: unknown };

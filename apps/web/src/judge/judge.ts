import { session } from '../session/session.ts';
import { external } from '../store/external.ts';
import type { AnswerTo, Asked, FromWorker, Kind, Questions, Standing, ToWorker } from './questions.ts';
import { judgeAddress } from './address.ts';

export const standing = external<Standing>({ kind: 'loading', version: 0, whole: false });

const waiting = new Map<number, (answer: unknown) => void>();
let asked = 0;
let worker: Worker | null = null;

/** Starts the worker that judges, and keeps it on the operation that is chosen. */
export function startJudging(): void {
  follow();
  session.subscribe(follow);
}

let holds: string | null = null;
function follow(): void {
  const operationId = session.get()?.operationId ?? null;
  if (operationId === null || operationId === holds) return;
  holds = operationId;
  standing.set({ kind: 'loading', version: standing.get().version + 1, whole: false });
  tell({ to: 'hold', operationId });
}

function tell(said: ToWorker): void {
  worker ??= begin();
  worker.postMessage(said);
}

function begin(): Worker {
  const begun = new Worker(judgeAddress, { type: 'module' });
  begun.onmessage = ({ data }: MessageEvent<FromWorker>) => {
    if (data.from === 'standing') {
      standing.set(data.standing);
      return;
    }
    const answered = waiting.get(data.id);
    waiting.delete(data.id);
    answered?.(data.answer);
  };
  begun.onerror = () => {
    standing.set({ ...standing.get(), kind: 'failed' });
    // Whoever asked goes on without an answer: alerts, for one, are planned one after the other.
    for (const answered of waiting.values()) answered(null);
    waiting.clear();
  };
  return begun;
}

/** Asks the worker. null: there is no season to judge yet, or it could not be judged. */
export function ask<K extends Kind>(kind: K, question: Questions[K]['ask']): Promise<AnswerTo<K> | null> {
  const id = (asked += 1);
  return new Promise((answered) => {
    // What comes back is what the worker's answers of the same name give, by their types.
    waiting.set(id, (answer) => answered(answer as AnswerTo<K> | null)); // eslint-disable-line @typescript-eslint/consistent-type-assertions -- the parse boundary between two threads of the same program
    tell({ to: 'answer', id, question: { kind, ask: question } as Asked }); // eslint-disable-line @typescript-eslint/consistent-type-assertions -- kind and question belong together by the signature
  });
}

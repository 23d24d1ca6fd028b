import '../season/noCodeFromText.ts';
import { loadEngine } from '../season/engine.ts';
import { GrowingSeason, type LocalSeason } from '../season/local.ts';
import { held, hold, type Held } from '../store/held.ts';
import { answerTo } from './answer.ts';
import type { Asked, FromWorker, Standing, ToWorker } from './questions.ts';

// The rules' own thread: it folds what this device holds, follows it, and answers what it is asked. Judging hundreds of
// batches takes its time here, and no touch has to wait for it.

const tell = (said: FromWorker): void => self.postMessage(said);

let growing: GrowingSeason | null = null;
let local: LocalSeason | null = null;
let version = 0;
let work: Promise<void> = Promise.resolve();

function stand(kind: Standing['kind']): void {
  version += 1;
  tell({ from: 'standing', standing: { kind, version, whole: local?.whole ?? false } });
}

async function follow(now: Held | null): Promise<void> {
  if (now === null) return;
  if (now.next === 0 && now.queue.length === 0) {
    growing = local = null;
    stand(now.heardAt === null ? 'empty' : 'loading');
    return;
  }
  try {
    growing ??= new GrowingSeason(await loadEngine());
    const next = await growing.follow(now);
    if (next === local) return;
    local = next;
    stand('ready');
  } catch (error) {
    console.error(error);
    growing = local = null;
    stand('failed');
  }
}

function answer(id: number, question: Asked): void {
  let found: unknown = null;
  try {
    if (local !== null) found = answerTo(local, question);
  } catch (error) {
    console.error(error);
  }
  tell({ from: 'answer', id, answer: found });
}

held.subscribe(() => {
  work = work.then(() => follow(held.get()));
});

// On its way before there is anything to judge.
void loadEngine().catch(() => undefined);

self.onmessage = ({ data }: MessageEvent<ToWorker>) => {
  if (data.to === 'hold') void hold(data.operationId);
  // After what changed before it was asked.
  else work = work.then(() => answer(data.id, data.question));
};

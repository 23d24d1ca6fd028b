import { session } from '../session/session.ts';
import { reception } from '../sync/sync.ts';
import { standing } from '../judge/judge.ts';

/** Longest that the first exchange and the first judging are waited for, ms. */
const longest = 10_000;

/**
 * Does something once the app has opened: the service was heard or is out of reach, and what is here was judged. Whoever
 * is not signed in waits for neither. `quiet`: how long there must have been nothing new to show, ms.
 */
export function onceQuiet(quiet: number, then: () => void): void {
  const end = performance.now() + longest;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const leave = [session, reception, standing].map((each) => each.subscribe(look));
  function look(): void {
    clearTimeout(timer);
    const { kind, busy } = reception.get();
    const opened =
      (session.get()?.operationId ?? null) === null ||
      (!busy && kind !== 'unknown' && standing.get().kind !== 'loading');
    const wait = opened ? quiet : longest;
    timer = setTimeout(
      () => {
        for (const each of leave) each();
        then();
      },
      Math.max(0, Math.min(wait, end - performance.now())),
    );
  }
  look();
}

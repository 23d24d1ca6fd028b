import type { Pile } from '../facts/types.ts';
import type { Store } from './store.ts';

/** The kept views of compost piles. */
export function piles(store: Store) {
  return store.memo.view('pile', (id): Pile | undefined => {
    const started = store.naming('pile.started', id).findLast((each) => each.data.pileId === id);
    if (started === undefined) return undefined;
    return {
      id: started.data.pileId,
      started,
      inputs: [
        ...started.data.inputs.map((input) => ({ ...input, at: started.at, recordId: started.id })),
        ...store
          .naming('pile.added', id)
          .map(({ data: { lotId, quantity }, at, id: recordId }) => ({ lotId, quantity, at, recordId })),
      ],
      temperatures: store.naming('pile.measured', id),
      turnings: store.naming('pile.turned', id),
      finishes: store.naming('pile.finished', id).filter((each) => each.data.pileId === id),
    };
  });
}

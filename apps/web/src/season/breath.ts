/** Longest that the thread is held, ms: a touch is answered between two. */
const longest = 5;

/** A pause for long work on the page's own thread: lets touches through whenever it was held for long. */
export function breath(): () => Promise<void> | undefined {
  let since = performance.now();
  return () => {
    if (performance.now() - since < longest) return undefined;
    return new Promise((go) =>
      setTimeout(() => {
        since = performance.now();
        go();
      }),
    );
  };
}

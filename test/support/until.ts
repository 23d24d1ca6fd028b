/** Looks until something is there, which the service or a phone does in its own time; fails after `patience` ms. */
export async function until<T>(look: () => Promise<T | undefined | null | false>, patience = 30_000): Promise<T> {
  const end = Date.now() + patience;
  for (;;) {
    const found = await look();
    if (found !== undefined && found !== null && found !== false) return found;
    if (Date.now() > end) throw new Error('waited in vain');
    await new Promise((done) => setTimeout(done, 150));
  }
}

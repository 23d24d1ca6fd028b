/**
 * Resolves once somebody wants the program to end: an interrupt, a termination, a closed terminal, or the bootstrap
 * that started it being gone. Asked again while it is ending, it goes on ending.
 */
export function untilStopped(): Promise<void> {
  return new Promise((stop) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => stop());
    process.once('disconnect', () => stop());
    // The channel to the bootstrap is there to be lost; it must not keep the program alive.
    process.channel?.unref();
  });
}

import { setTimeout as pause } from 'node:timers/promises';

/**
 * `fetch`, once more where the connection broke before an answer: one that was kept from before the service was killed
 * is dead, and a client finds out only when it uses it again.
 */
export async function asked(url: string, init?: RequestInit): Promise<Response> {
  try {
    return await fetch(url, init);
  } catch {
    await pause(200);
    return fetch(url, init);
  }
}

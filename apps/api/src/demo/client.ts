import { z } from 'zod';

/** A person's way to the service: the same HTTP that every client uses. */
export class Client {
  constructor(
    readonly url: string,
    readonly token: string,
  ) {}

  async get<T extends z.ZodType>(path: string, shape: T): Promise<z.output<T>> {
    return shape.parse(await (await this.#ask(path, {})).json());
  }

  async post<T extends z.ZodType>(path: string, body: unknown, shape: T): Promise<z.output<T>> {
    const headers = { 'content-type': 'application/json' };
    return shape.parse(await (await this.#ask(path, { method: 'POST', headers, body: JSON.stringify(body) })).json());
  }

  async bytes(path: string): Promise<Uint8Array> {
    return new Uint8Array(await (await this.#ask(path, {})).arrayBuffer());
  }

  async #ask(path: string, init: RequestInit): Promise<Response> {
    const headers = new Headers(init.headers);
    headers.set('authorization', `Bearer ${this.token}`);
    const answer = await fetch(`${this.url}/api/v1${path}`, { ...init, headers });
    if (!answer.ok) throw new Error(`${init.method ?? 'GET'} ${path}: ${answer.status} ${await answer.text()}`);
    return answer;
  }
}

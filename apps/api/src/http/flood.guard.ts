import { Injectable, type CanActivate, type ExecutionContext } from '@nestjs/common';
import type { Request } from 'express';
import { ProblemAnswer } from './problem.ts';

const minute = 60_000;
/** Requests a minute from one address. */
const most = 1_200;

/**
 * Holds back floods at addresses that need no token. Not used for what members send: a phone that was offline for a
 * week must be able to deliver.
 */
@Injectable()
export class Flood implements CanActivate {
  #began = 0;
  readonly #seen = new Map<string, number>();

  canActivate(context: ExecutionContext): boolean {
    const { ip } = context.switchToHttp().getRequest<Request>();
    const now = performance.now();
    if (now - this.#began >= minute) {
      this.#began = now;
      this.#seen.clear();
    }
    const count = (this.#seen.get(ip ?? '') ?? 0) + 1;
    this.#seen.set(ip ?? '', count);
    if (count <= most) return true;
    const wait = Math.ceil((this.#began + minute - now) / 1000);
    throw new ProblemAnswer('too-many-requests', `More than ${most} requests in a minute. Wait.`, [], wait);
  }
}

import type { z } from 'zod';

type Json = Record<string, unknown>;

/** One address and method. */
export interface Route {
  readonly summary: string;
  readonly query?: z.ZodType;
  readonly body?: Json;
  /** What the body may come as; JSON, where left out. */
  readonly bodyTypes?: readonly string[];
  /** null: the answer has no body. */
  readonly answer: Json | null;
  readonly mediaType?: string;
  readonly status?: number;
  /** No token needed. */
  readonly open?: true;
}

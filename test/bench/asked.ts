import type { Sent } from './records.ts';

/** What the service's process is asked to do, and to time, without HTTP. */
export type Asked =
  | { readonly do: 'rebuild'; readonly operationId: string }
  | { readonly do: 'append'; readonly operationId: string; readonly requests: readonly (readonly Sent[])[] }
  | { readonly do: 'trace'; readonly operationId: string; readonly id: string }
  | { readonly do: 'page'; readonly operationId: string; readonly id: string }
  | { readonly do: 'commit'; readonly stream: string; readonly requests: readonly (readonly Sent[])[] };

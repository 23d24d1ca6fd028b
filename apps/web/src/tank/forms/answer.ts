import type { Quantity } from '@furrowmark/domain';

/** What was entered, by field name. An amount's `text` is what the keys wrote. */
export type Answer =
  | {
      readonly kind: 'amount';
      readonly text: string;
      readonly unit: string;
      readonly whole?: Quantity;
      /** Nobody wrote it yet: the first key replaces it. */
      readonly guess?: boolean;
    }
  | { readonly kind: 'pick'; readonly chosen: readonly string[] }
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'time'; readonly at: number };
export type Answers = Readonly<Record<string, Answer>>;

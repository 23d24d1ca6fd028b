import { openSeason } from '../fold/season.ts';
import { trace } from '../trace/trace.ts';
import type { Trace, TraceRoot } from '../trace/types.ts';
import { idOf, pounds, type Book } from './book.ts';

/** The trace of a thing that a test named; fails where no record names it. */
export function traced(
  book: Book,
  kind: TraceRoot['kind'],
  name: string,
  direction: 'forward' | 'backward' = 'forward',
): Trace {
  const found = trace(openSeason(book.records), { kind, id: idOf(name) }, direction);
  if (found === null) throw new Error(`nothing known of ${name}`);
  return found;
}

/** The code of a thing in a trace; its id where it has none. */
export const codeIn =
  (found: Trace) =>
  (id: string): string =>
    found.nodes.find((node) => node.id === id)?.code ?? id;

/** What was reached, by code, with how much came there; null where it is not told. */
export const quantities = (
  reached: readonly { readonly code: string; readonly quantity?: { readonly value: number } }[],
): Record<string, number | null> =>
  Object.fromEntries(reached.map((each) => [each.code, each.quantity?.value ?? null]));

/** ` 10 [lb_av]` behind a step; nothing where no amount is known. */
export const amountText = (quantity: { readonly value: number; readonly unit: string } | undefined): string =>
  quantity === undefined ? '' : ` ${String(quantity.value)} ${quantity.unit}`;

/** Each step as `code → code amount`. */
export const stepsWithAmounts = (found: Trace): string[] => {
  const code = codeIn(found);
  return found.edges.map(({ from, to, quantity }) => `${code(from.id)} → ${code(to.id)}${amountText(quantity)}`);
};

/** Writes a planting that was set on 1 May, or on the day given. */
export const planting = (book: Book, name: string, on: string, plantedOn = '2026-05-01', from?: string) =>
  book.write('planting.started', `${plantedOn}T08:00:00Z`, {
    ...{ plantingId: idOf(name), fieldId: idOf(on), crop: name, ediblePart: 'root', plantedOn },
    ...(from === undefined ? {} : { fromPlantingId: idOf(from) }),
  });

/** Writes a harvest of 2,400 lb, of a planting where one is named. */
export const harvest = (book: Book, name: string, on: string, at: string, of?: string) =>
  book.write('harvest.made', at, {
    ...{ harvestId: idOf(name), code: name, fieldId: idOf(on), quantity: pounds(2400), soldAs: 'organic' },
    ...(of === undefined ? {} : { plantingId: idOf(of) }),
  });

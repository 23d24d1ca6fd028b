import type { INestApplicationContext } from '@nestjs/common';
import { Seasons } from '../views/index.ts';
import { Refusal } from './command.ts';

type Thing = 'batch' | 'lot' | 'field' | 'harvest' | 'instrument';

/** The id of what people call by a code, or that id itself. */
export async function named(
  context: INestApplicationContext,
  operationId: string,
  thing: Thing,
  text: string,
): Promise<string> {
  const found = await context.get(Seasons).read(operationId, ({ season }) => {
    const all: Readonly<Record<Thing, () => readonly { readonly id: string; readonly code: string }[]>> = {
      batch: () => season.batches(),
      lot: () => season.lots(),
      field: () => season.fields().map(({ id, registered }) => ({ id, code: registered.code })),
      harvest: () => season.harvests(),
      instrument: () => season.instruments().map(({ id, registered }) => ({ id, code: registered.code })),
    };
    return all[thing]().filter(({ id, code }) => id === text || code === text);
  });
  const [first, ...more] = found;
  if (first === undefined) throw new Refusal(`there is no ${thing} "${text}" in this operation.`);
  if (more.length > 0)
    throw new Refusal(
      `several are called "${text}"; give one's id with --${thing}: ${found.map(({ id }) => id).join(', ')}.`,
    );
  return first.id;
}

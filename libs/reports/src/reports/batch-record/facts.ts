import type { Batch } from '@furrowmark/domain';
import type { Block } from '../../content.ts';
import { litresText, momentText, nameOf, spanText, type Telling } from '../../telling/index.ts';
import { batchWords } from './words.ts';

interface Fact {
  readonly term: string;
  readonly value: string;
}

/** What the batch was, in a dozen lines. */
export function glance(telling: Telling, batch: Batch): Block[] {
  const own = batchWords[telling.language];
  const { words, season } = telling;
  const recipe = batch.recipeId === null ? undefined : season.recipe(batch.recipeId, batch.opened?.at.at);
  const water = [
    ...new Set(
      batch.fills.map((fill) => `${nameOf(telling, fill.sourceId)}, ${words.disinfectants[fill.disinfectant]}`),
    ),
  ];
  const lastFill = batch.fills.at(-1);
  const fact = (term: string, value: string | undefined): Fact[] => (value === undefined ? [] : [{ term, value }]);
  const items = [
    ...fact(own.batch, batch.code),
    ...fact(own.kind, words.batchKinds[batch.kind]),
    ...fact(own.phase, words.phases[batch.phase]),
    ...fact(own.vessel, batch.vesselId === null ? undefined : nameOf(telling, batch.vesselId)),
    ...fact(own.recipe, recipe && own.edition(recipe.data.code, recipe.data.edition)),
    ...fact(own.received, batch.receivedTea?.data.from.name),
    ...fact(own.water, water.join('; ') || words.notRecorded),
    ...fact(own.filled, litresText(telling, batch.volume.filledL)),
    ...fact(own.filledAt, momentText(telling, lastFill?.finished ?? null)),
    ...fact(own.airOn, momentText(telling, batch.airStarts[0]?.at ?? null)),
    ...fact(own.preAeration, spanText(telling, batch.preAerationMinutes, 'min', 0)),
    ...fact(own.brewFrom, momentText(telling, batch.brewStart)),
    ...fact(own.airOff, batch.airOff === null ? words.none : momentText(telling, batch.airOff)),
    ...fact(own.brew, spanText(telling, batch.brewHours, 'h')),
    ...fact(own.hold, spanText(telling, batch.holdHours, 'h')),
  ];
  const kinds: Readonly<Record<string, string>> = { ...words.kinds, ...words.otherKinds };
  const notes = batch.missing.map((missing): Block => ({
    kind: 'note',
    tone: 'caution',
    text: own.missing(kinds[missing.kind] ?? missing.kind, missing.id.slice(0, 8)),
  }));
  const rivals: Block[] = batch.rivals.length === 0 ? [] : [{ kind: 'note', tone: 'info', text: own.rivals }];
  return [{ kind: 'heading', level: 2, text: own.glance }, { kind: 'facts', items }, ...notes, ...rivals];
}

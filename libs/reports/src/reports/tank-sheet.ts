import type { Batch } from '@furrowmark/domain';
import { z } from 'zod';
import type { Block, Cell, TableBlock } from '../content.ts';
import { litresText, momentText, nameOf, report, tell, type Telling } from '../telling/index.ts';
import { defineReport } from './kind.ts';
import { id } from './parameters.ts';
import { texts, type Text } from './tank-sheet-words.ts';

/** Empty lines to write on: as many as a brew of a day and a half with a reading every few hours needs. */
const readingLines = 14;

function toFill(
  name: string,
  caption: string,
  columns: readonly (readonly [key: string, label: string])[],
  lines: number,
): TableBlock {
  return {
    kind: 'table',
    name,
    caption,
    columns: columns.map(([key, label]) => ({ key, label, type: 'text' })),
    rows: Array.from({ length: lines }, () => columns.map((): Cell => ({ text: ' ', value: null }))),
  };
}

/** What is known already, so that nobody copies it by hand. */
function known(telling: Telling, batch: Batch, own: Text): Block {
  const planned = batch.recipeId === null ? null : nameOf(telling, batch.recipeId);
  const filled = batch.fills.length === 0 ? null : litresText(telling, batch.volume.filledL);
  return {
    kind: 'facts',
    items: [
      { term: own.batch, value: batch.code },
      {
        term: own.vessel,
        value: batch.vesselId === null ? telling.words.notRecorded : nameOf(telling, batch.vesselId),
      },
      { term: own.recipe, value: planned ?? telling.words.notRecorded },
      ...(filled === null ? [] : [{ term: own.filled, value: filled }]),
      ...(batch.brewStart === null ? [] : [{ term: own.brewing, value: momentText(telling, batch.brewStart) }]),
    ],
  };
}

/** A sheet to hang at the tank and write on with a wet pencil; the code leads back to the batch. */
export const tankSheet = defineReport({
  kind: 'tank-sheet',
  title: { en: texts.en.title, es: texts.es.title },
  parameters: z.strictObject({ batch: id }),
  content(season, { batch: batchId }, given) {
    const batch = season.batch(batchId);
    if (batch === undefined) return null;
    const telling = tell(season, given);
    const own = texts[telling.language];
    const code = given.origin === undefined ? `urn:uuid:${batch.id}` : `${given.origin}/tank/${batch.id}`;
    return report(telling, { kind: 'tank-sheet', title: own.of(batch.code), subtitle: own.subtitle }, [
      { kind: 'qrCode', text: code, label: own.scan(batch.code) },
      known(telling, batch, own),
      { kind: 'note', tone: 'caution', text: own.caution },
      toFill('water-and-air', own.steps, own.stepColumns, 8),
      toFill('readings', own.readings, own.readingColumns, readingLines),
      toFill('draws', own.draws, own.drawColumns, 5),
      { kind: 'paragraph', text: own.copying },
      { kind: 'blank', label: own.sign, lines: 1 },
    ]);
  },
});

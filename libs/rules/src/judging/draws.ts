import type { Batch, Draw, Moment } from '@furrowmark/domain';

/** Whether a load never left for anywhere: all of it dumped, put back or carried over, none of it applied. */
export function cameToNothing(draw: Draw): boolean {
  if (draw.applicationId !== null || draw.ended.length === 0) return false;
  if (draw.litres === null) return true;
  let ended = 0;
  for (const { litres } of draw.ended) {
    if (litres === null) return true;
    ended += litres.toNumber();
  }
  return ended >= draw.litres.toNumber() * (1 - 1e-9);
}

/** Loads that were, or may yet be, applied. */
export const loadsOut = (batch: Batch): readonly Draw[] => batch.draws.filter((draw) => !cameToNothing(draw));

/** Litres in the tank after the last event; null while nothing was filled. */
export const contentNow = (batch: Batch): number | null => batch.content.at(-1)?.litres.toNumber() ?? null;

/**
 * Whether so much tea is left that something must still become of it: more than a tenth of what went in, the
 * tolerance of the volume account. What clings to a tank is no brew.
 */
export function teaLeft(batch: Batch): boolean {
  if (batch.closed !== null) return false;
  const content = contentNow(batch);
  return content === null || content > batch.volume.filledL.toNumber() / 10;
}

/** From when the tea now in the tank has brewed: brew start or the last top-up, the later. */
export function brewingSince(batch: Batch): Moment | null {
  const topUp = batch.topUps.at(-1)?.at ?? null;
  return topUp !== null && (batch.brewStart === null || topUp.at > batch.brewStart.at) ? topUp : batch.brewStart;
}

/** The last moment at which a load left the tank; null where none did. */
export function lastDrawAt(batch: Batch): Moment | null {
  return batch.draws.reduce<Moment | null>((last, { at }) => (last === null || at.at > last.at ? at : last), null);
}

/**
 * When brewing ended: the air off that was never followed by air on, the last draw of a tank that it emptied, or the
 * closing. null while the tea brews on.
 */
export function brewingEnded(batch: Batch): Moment | null {
  const emptied = teaLeft(batch) ? null : lastDrawAt(batch);
  const closed = batch.closed?.at ?? null;
  return [batch.airOff, emptied, batch.closed === null || emptied !== null ? null : closed].reduce(
    (first, moment) => (moment !== null && (first === null || moment.at < first.at) ? moment : first),
    null,
  );
}

/** The ids of the records of a batch that are of these types, struck ones left out. */
export function recordIdsOf(batch: Batch, ...types: readonly string[]): string[] {
  return batch.records.filter((record) => types.includes(record.type) && record.state !== 'struck').map((r) => r.id);
}

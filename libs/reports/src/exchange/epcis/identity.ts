import { drawSubjectId, type CurrentRecord, type Season } from '@furrowmark/domain';
import { lotLink, placeLink } from '../gs1.ts';

/** Keys that the operation has from GS1, where it has any; their check digits are looked at before they get here. */
export interface Gs1Keys {
  /** The operation's place. */
  readonly gln?: string | undefined;
  /** Trade items by the id of the material or planting that is traded under them. */
  readonly gtins: ReadonlyMap<string, string>;
}

export const noKeys: Gs1Keys = { gtins: new Map() };

/** A thing of the operation: its own id as a URI (RFC 9562). */
export const ownUri = (id: string): string => `urn:uuid:${id}`;

/** The class that a lot is in EPCIS: under its GS1 key where it has one, else under its own id. */
export function lotClass(season: Season, keys: Gs1Keys, lotId: string): string {
  const lot = season.lot(lotId);
  const gtin = lot === undefined ? undefined : keys.gtins.get(lot.materialId);
  return (lot && gtin !== undefined ? lotLink(gtin, lot.code) : null) ?? ownUri(lotId);
}

export function harvestClass(season: Season, keys: Gs1Keys, harvestId: string): string {
  const harvest = season.harvest(harvestId);
  const gtin = keys.gtins.get(harvest?.plantingId ?? '');
  return (harvest && gtin !== undefined ? lotLink(gtin, harvest.code) : null) ?? ownUri(harvestId);
}

/** Where the operation is; its id in the log where no GLN is given. null before it is described. */
export function operationPlace(season: Season, { gln }: Gs1Keys): string | null {
  if (gln !== undefined) return placeLink(gln);
  return season.operation === null ? null : ownUri(season.operation.id);
}

/**
 * The id of what a record says now: its own, or that of the amendment in force. So a corrected event has another id than
 * the one that went out before.
 */
export const saidBy = (record: CurrentRecord): string =>
  record.history.findLast(({ kind, inForce }) => kind === 'amended' && inForce)?.recordId ?? record.id;

/** An event's id from the records that say it and what it is of them, the same again for the same records. */
export function eventId(records: readonly string[], part = ''): string {
  const [first = '', ...more] = records;
  return ownUri(more.length === 0 && part === '' ? first : drawSubjectId(first, [...more, part].join('|')));
}

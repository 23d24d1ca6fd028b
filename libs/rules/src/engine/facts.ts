import type {
  Application,
  Batch,
  CurrentRecord,
  Draw,
  Equipment,
  Field,
  Harvest,
  Instrument,
  Lot,
  Material,
  Person,
  Pile,
  Planting,
  Season,
  Source,
  Vessel,
} from '@furrowmark/domain';

/** The operation itself: what bears on no narrower thing. */
export interface Operation {
  readonly id: string;
  readonly season: Season;
}

/** What a rule is given for a subject of each kind. */
export interface FactOf {
  batch: Batch;
  draw: { readonly batch: Batch; readonly draw: Draw };
  lot: Lot;
  pile: Pile;
  source: Source;
  vessel: Vessel;
  equipment: Equipment;
  instrument: Instrument;
  application: Application;
  field: Field;
  planting: Planting;
  harvest: Harvest;
  person: Person;
  material: Material;
  operation: Operation;
}

/** A record of whatever type, as it stands. */
export type AnyRecord = CurrentRecord;

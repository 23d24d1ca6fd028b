import type { Decimal } from 'decimal.js';
import type { CurrentRecord, DataOf, LogRecord } from '../records/index.ts';
import type {
  ApplicationId,
  BatchId,
  EquipmentId,
  FieldId,
  HarvestId,
  InstrumentId,
  LotId,
  MaterialId,
  MeasureId,
  OperationId,
  PersonId,
  PileId,
  PlantingId,
  RecipeId,
  RecordId,
  SourceId,
  VesselId,
} from '../records/ids.ts';
import type { Quantity } from '../quantity/quantity.ts';
import type { Instant, Moment, Span } from './time.ts';

/**
 * A registered thing: what it was registered as, holding for all time, and what changed from when on.
 * Read it with `asOf(thing, instant)`.
 */
export interface Registered<Id extends string, Data> {
  readonly id: Id;
  readonly registered: Data;
  /** In order of time; each changes the named members from `from` on. */
  readonly revisions: readonly {
    readonly from: Instant;
    readonly changes: Partial<Data>;
    readonly recordId: RecordId;
  }[];
  readonly retired?: { readonly at: Instant; readonly reason: string; readonly recordId: RecordId };
  /** Registration, revisions and retirement. */
  readonly recordIds: readonly RecordId[];
  /** Further registrations of the same id, outranked by the one shown. */
  readonly rivals: readonly RecordId[];
}

export type Source = Registered<SourceId, DataOf<'source.registered'>> & {
  readonly tests: readonly CurrentRecord<'source.tested'>[];
  readonly documents: readonly CurrentRecord<'source.documented'>[];
  readonly deliveries: readonly CurrentRecord<'source.delivered'>[];
};
export type Vessel = Registered<VesselId, DataOf<'vessel.registered'>> & {
  readonly cleanings: readonly CurrentRecord<'vessel.cleaned'>[];
};
export type Equipment = Registered<EquipmentId, DataOf<'equipment.registered'>> & {
  readonly cleanings: readonly CurrentRecord<'equipment.cleaned'>[];
  readonly calibrations: readonly CurrentRecord<'equipment.calibrated'>[];
  readonly uses: readonly CurrentRecord<'equipment.used'>[];
};
export type Instrument = Registered<InstrumentId, DataOf<'instrument.registered'>> & {
  readonly calibrations: readonly CurrentRecord<'instrument.calibrated'>[];
  readonly checks: readonly CurrentRecord<'instrument.checked'>[];
};
export type Material = Registered<MaterialId, DataOf<'material.registered'>> & {
  readonly approvals: readonly CurrentRecord<'material.approved'>[];
  readonly withdrawals: readonly CurrentRecord<'material.withdrawn'>[];
  readonly documents: readonly CurrentRecord<'material.documented'>[];
};
export type Person = Registered<PersonId, DataOf<'person.registered'>> & {
  readonly trainings: readonly CurrentRecord<'person.trained'>[];
  readonly erased?: CurrentRecord<'person.erased'>;
};
export type Field = Registered<FieldId, DataOf<'field.registered'>> & {
  readonly exposures: readonly CurrentRecord<'field.exposed'>[];
};
export type Planting = {
  readonly id: PlantingId;
  readonly started: CurrentRecord<'planting.started'>;
  readonly ended?: CurrentRecord<'planting.ended'>;
  /** From `plantedOn` (its day, or 1 January of its year, in the operation's zone), else the record's `occurredAt`. */
  readonly standsFrom: Instant;
  readonly standsUntil: Instant | null;
};

/** One change of a lot's stock. `amount` is in the lot's own unit, exact, positive; null where it cannot be converted. */
export interface LotMovement {
  readonly kind:
    'received' | 'batch' | 'neutralizer' | 'tankMix' | 'pile' | 'cleaning' | 'application' | 'disposed' | 'counted';
  readonly at: Moment;
  readonly quantity: Quantity;
  readonly amount: Decimal | null;
  readonly recordId: RecordId;
  /** Where it went: a batch, application, pile, vessel or equipment. */
  readonly into?: { readonly kind: 'batch' | 'application' | 'pile' | 'vessel' | 'equipment'; readonly id: string };
}

export interface Lot {
  readonly id: LotId;
  readonly code: string;
  /** A bought lot, or one that came out of an own pile. */
  readonly origin:
    | { readonly kind: 'received'; readonly record: CurrentRecord<'lot.received'> }
    | { readonly kind: 'pile'; readonly pileId: PileId; readonly record: CurrentRecord<'pile.finished'> };
  readonly materialId: MaterialId;
  readonly quantity: Quantity;
  readonly at: Moment;
  readonly expiresOn?: string | undefined;
  readonly movements: readonly LotMovement[];
  readonly holds: readonly (CurrentRecord<'lot.held'> | CurrentRecord<'lot.released'>)[];
  readonly recalls: readonly CurrentRecord<'lot.recalled'>[];
  readonly rivals: readonly RecordId[];
}

export interface Pile {
  readonly id: PileId;
  readonly started: CurrentRecord<'pile.started'>;
  readonly inputs: readonly {
    readonly lotId: LotId;
    readonly quantity: Quantity;
    readonly at: Moment;
    readonly recordId: RecordId;
  }[];
  readonly temperatures: readonly CurrentRecord<'pile.measured'>[];
  readonly turnings: readonly CurrentRecord<'pile.turned'>[];
  readonly finishes: readonly CurrentRecord<'pile.finished'>[];
}

// ---- a batch ----------------------------------------------------------------------------------------------------

export interface Fill {
  readonly recordId: RecordId;
  readonly sourceId: SourceId;
  readonly started: Moment;
  readonly finished: Moment;
  /** null where the written quantity has no volume. */
  readonly litres: Decimal | null;
  readonly quantity: Quantity;
  /** What the source was disinfected with at that moment; `unknown` where the source is not known. */
  readonly disinfectant: 'none' | 'chlorine' | 'chloramine' | 'unknown';
  /** Fraction 0–1 of the tank's content that this water made up once added. */
  readonly shareOfContent: number;
  /** After brew start: water onto living tea. */
  readonly ontoLivingTea: boolean;
  /**
   * Uninterrupted air between this fill's end and the first ingredient, minutes; null for water onto living tea, and
   * while no ingredient is in or a missing air-on leaves it open.
   */
  readonly airMinutes: Span | null;
}

export interface Ingredient {
  readonly recordId: RecordId;
  readonly kind: 'ingredient' | 'neutralizer';
  readonly lotId: LotId;
  /** null while the lot or its material is not yet known. */
  readonly materialId: MaterialId | null;
  readonly materialKind: DataOf<'material.registered'>['kind'] | null;
  readonly microbialFood: boolean | null;
  readonly animalOrigin: 'yes' | 'no' | 'unknown';
  readonly quantity: Quantity;
  /** In the lot's unit, exact. */
  readonly amount: Decimal | null;
  readonly at: Moment;
}

/** Air off … on again. `to` null: never on again (then it may be *the* air off). */
export interface AirInterruption {
  readonly stopped: Moment;
  readonly restarted: Moment | null;
  readonly minutes: Span | null;
  readonly cause?: string | undefined;
  /** After food went in. */
  readonly duringBrew: boolean;
  /** An oxygen reading at any value, or a sound odour check, after the restart and before the next draw. */
  readonly checkedAfter: boolean;
  readonly recordIds: readonly RecordId[];
}

export interface OxygenReading {
  readonly recordId: RecordId;
  readonly at: Moment;
  readonly mgPerL: number;
  readonly qualifier: Quantity['qualifier'];
  readonly temperatureC: number | null;
  /** % of saturation at that temperature and the operation's elevation (sea level where unknown); null without a temperature. */
  readonly saturationPercent: number | null;
  readonly instrumentId?: InstrumentId | undefined;
}

/**
 * One load taken from the batch. `id` is the `drawId`, else UUIDv5(applicationId, batchId[+`|n`]); `drawId` null then.
 * A draw into no application yet has `applicationId` null; draws put back or dumped have their `fate`.
 */
export interface Draw {
  readonly id: string;
  readonly drawId: string | null;
  readonly applicationId: ApplicationId | null;
  /** All applications that name this draw, in order: more than one where a load was sprayed in two goes. */
  readonly applicationIds: readonly ApplicationId[];
  readonly at: Moment;
  readonly litres: Decimal | null;
  readonly quantity: Quantity;
  readonly into?: string | undefined;
  readonly keptAerated: boolean;
  readonly ended: readonly {
    readonly recordId: RecordId;
    readonly fate: 'dumped' | 'putBack' | 'carriedOver';
    readonly litres: Decimal | null;
    readonly intoBatchId?: BatchId | undefined;
    readonly at: Moment;
  }[];
  /** *The* air off before this draw: null while the tank was aerated at the draw. */
  readonly airOff: Moment | null;
  /** The tea's last air (§4). */
  readonly lastAir: Moment | null;
  /** End of the application; null while none is recorded. */
  readonly appliedUntil: Moment | null;
  /** Brew start or the last top-up, whichever is later, with the record that set it. null before any ingredient. */
  readonly brewFrom: Moment | null;
  readonly brewHours: Span | null;
  /** Last air → end of the application, plus `uncheckedInterruptionHours`. */
  readonly holdHours: Span | null;
  /** Last air → end of the application alone. */
  readonly airToApplicationHours: Span | null;
  /**
   * Interruptions of any length after food went in that nobody checked after before this draw. Those longer than what
   * `air-continuous` allows count as hold time; where its limit is not the built-in 60 min, add up anew (`hoursOver`).
   */
  readonly uncheckedInterruptions: readonly { readonly minutes: Span; readonly recordIds: readonly RecordId[] }[];
  /** Hours of `holdHours` that come from those of them longer than 60 min. */
  readonly uncheckedInterruptionHours: number;
  /** Minutes from the last oxygen reading to the draw. */
  readonly lastOxygenMinutes: Span | null;
  /** Share of everything in the tank that left with this draw (0–1), and the lots' amounts in it, exact, in the lots' units. */
  readonly shareOfTank: number | null;
  readonly lots: readonly { readonly lotId: LotId; readonly amount: Decimal }[];
  /**
   * Which additions and fills the draw holds, and the exact share (0–1) of each, `lotId` null for water. One whose
   * share cannot be told (nothing recorded as filled, more drawn than filled) stands with a share of 0.
   */
  readonly parcels: readonly { readonly recordId: string; readonly lotId: LotId | null; readonly share: Decimal }[];
  /** A material registered as microbial food was in the tea drawn. */
  readonly microbialFoodIn: boolean;
  /** Compost, vermicompost or microbial food was in the tea drawn. */
  readonly foodIn: boolean;
  readonly recordIds: readonly RecordId[];
}

export interface VolumeAccount {
  /** Everything that came in: water, tea received, other batches' tea carried over. */
  readonly filledL: Decimal;
  /** Of `filledL`, tea received from elsewhere. */
  readonly receivedL: Decimal;
  /** Of `filledL`, rests of other batches' draws. */
  readonly carriedInL: Decimal;
  readonly putBackL: Decimal;
  readonly drawnL: Decimal;
  readonly suppliedL: Decimal;
  readonly lostL: Decimal;
  readonly disposedL: Decimal;
  /** As recorded at closing; null while not closed or not said. */
  readonly remainingL: Decimal | null;
  /** filled + putBack − drawn − supplied − lost − disposed − remaining; while open, the running content takes remaining's place and this is 0. */
  readonly unaccountedL: Decimal;
}

export type Phase = 'open' | 'filled' | 'aerating' | 'brewing' | 'holding' | 'closed' | 'reviewed';

export interface Batch {
  readonly id: BatchId;
  /** The code people write on it; the id's first block while no record named one. */
  readonly code: string;
  readonly kind: 'aeratedTea' | 'extract' | 'stillTea';
  /** null while the opening is not known (only later records arrived). */
  readonly opened: CurrentRecord<'batch.opened'> | null;
  readonly receivedTea: CurrentRecord<'tea.received'> | null;
  readonly rivals: readonly RecordId[];
  readonly vesselId: VesselId | null;
  readonly recipeId: RecipeId | null;
  readonly fills: readonly Fill[];
  readonly ingredients: readonly Ingredient[];
  readonly airStarts: readonly {
    readonly recordId: RecordId;
    readonly at: Moment;
    readonly blowerId?: EquipmentId | undefined;
  }[];
  readonly interruptions: readonly AirInterruption[];
  /** *The* air off: never followed by air on. */
  readonly airOff: Moment | null;
  readonly brewStart: Moment | null;
  readonly topUps: readonly {
    readonly recordId: RecordId;
    readonly at: Moment;
    readonly what: 'ingredient' | 'water';
  }[];
  /**
   * Uninterrupted air between the end of the fill and the first ingredient; of several fills before it the last one
   * counts (`fills[].airMinutes` has each). null without both, or where a missing air-on leaves it open.
   */
  readonly preAerationMinutes: Span | null;
  readonly chlorine: readonly CurrentRecord<'batch.chlorineMeasured'>[];
  readonly oxygen: readonly OxygenReading[];
  readonly checks: readonly CurrentRecord<'batch.checked'>[];
  readonly samples: readonly (CurrentRecord<'batch.sampled'> | CurrentRecord<'batch.analysed'>)[];
  readonly draws: readonly Draw[];
  readonly losses: readonly {
    readonly recordId: RecordId;
    readonly at: Moment;
    readonly litres: Decimal | null;
    readonly kind: 'lost' | 'disposed' | 'supplied';
  }[];
  /** Content of the tank after each event, litres, in order; the highest must stay within the working volume. */
  readonly content: readonly { readonly at: Moment; readonly litres: Decimal; readonly recordId: RecordId }[];
  readonly volume: VolumeAccount;
  /** Of each lot put in: in the tank, drawn out, lost or disposed with tea, exact, in the lot's unit. */
  readonly lotAccount: readonly {
    readonly lotId: LotId;
    readonly added: Decimal;
    readonly drawn: Decimal;
    readonly lost: Decimal;
    readonly left: Decimal;
  }[];
  readonly closed: CurrentRecord<'batch.closed'> | null;
  readonly reviews: readonly CurrentRecord<'batch.reviewed'>[];
  readonly phase: Phase;
  /** The worst draw's: shortest brew, longest hold. */
  readonly brewHours: Span | null;
  readonly holdHours: Span | null;
  /** More was taken out of the tank than was recorded as put in. */
  readonly overdrawn: boolean;
  /** Every current record of this batch, amended and struck ones included (see `state`), in the order of §2. */
  readonly records: readonly CurrentRecord[];
  /** Ids this batch refers to that no record has described yet. */
  readonly missing: readonly { readonly kind: string; readonly id: string; readonly recordId: RecordId }[];
}

export interface Application {
  readonly id: ApplicationId;
  readonly code: string;
  readonly record: CurrentRecord<'application.made'>;
  readonly rivals: readonly RecordId[];
  readonly started: Moment;
  readonly finished: Moment;
  readonly loads: readonly {
    readonly drawSubjectId: string;
    readonly batchId: BatchId | null;
    readonly litres: Decimal | null;
  }[];
  /** Each target's share (0–1, exact, summing to 1), by volume, else by area, else equally. */
  readonly targets: readonly {
    readonly fieldId?: FieldId | undefined;
    readonly lotId?: LotId | undefined;
    /** The planting it names, else those that stood on the ground at the start. */
    readonly plantingIds: readonly PlantingId[];
    /** Whether the record names the planting itself. */
    readonly plantingNamed: boolean;
    readonly share: Decimal;
    readonly splitBy: 'volume' | 'area' | 'equal';
    readonly areaM2: number | null;
  }[];
}

export interface Harvest {
  readonly id: HarvestId;
  readonly code: string;
  readonly record: CurrentRecord<'harvest.made'>;
  readonly rivals: readonly RecordId[];
  readonly at: Moment;
  readonly fieldId: FieldId;
  readonly plantingId: PlantingId | null;
  readonly shipments: readonly CurrentRecord<'harvest.shipped'>[];
}

/**
 * Everything the operation's records say, as looked at from one set of records. Each view is folded when first asked
 * for and kept; `openSeason(records)` makes one, `season.add(records)` takes further ones and forgets only what they touch.
 */
export interface Season {
  /** null before `operation.described` is known. */
  readonly operation: Registered<OperationId, DataOf<'operation.described'>> | null;
  /** IANA zone; UTC while unknown. */
  readonly timeZone: string;
  readonly elevationM: number | null;
  /** Size of the log this is folded from: largest seq + 1. */
  readonly size: number;
  /** Rises with every `add`: what is kept beside the season holds as long as it stands still. */
  readonly version: number;
  /**
   * A view of the caller's own, kept per id until something that it read of the season changes. Asked for once per
   * season and name; `fold` must read nothing but this season, and not wait.
   */
  view<T>(name: string, fold: (id: string) => T): (id: string) => T;
  records(): Iterable<CurrentRecord>;
  /** The records as they were first written, corrections beside what they correct. */
  written(): readonly LogRecord[];
  record(id: string): CurrentRecord | undefined;
  /** Standing records of a type that name the id, in order: much quicker than picking them out of `about`. */
  naming<T extends CurrentRecord['type']>(type: T, id: string): readonly CurrentRecord<T>[];
  /** Standing records that name the id, in the order of §2. */
  about(id: string): readonly CurrentRecord[];
  /** The same with struck ones. */
  everAbout(id: string): readonly CurrentRecord[];
  /** Records that named the id until an amendment turned them to another ("typed on the wrong tank"). */
  onceAbout(id: string): readonly CurrentRecord[];
  adoptions(): readonly CurrentRecord<'ruleBook.adopted'>[];
  answers(): readonly CurrentRecord<'finding.answered'>[];
  ofType<T extends CurrentRecord['type']>(type: T): readonly CurrentRecord<T>[];

  source(id: string): Source | undefined;
  sources(): readonly Source[];
  vessel(id: string): Vessel | undefined;
  vessels(): readonly Vessel[];
  equipment(id: string): Equipment | undefined;
  allEquipment(): readonly Equipment[];
  instrument(id: string): Instrument | undefined;
  instruments(): readonly Instrument[];
  material(id: string): Material | undefined;
  materials(): readonly Material[];
  /** A household measure and what it is worth. */
  measure(id: string): Registered<MeasureId, DataOf<'measure.registered'>> | undefined;
  person(id: string): Person | undefined;
  people(): readonly Person[];
  field(id: string): Field | undefined;
  fields(): readonly Field[];
  planting(id: string): Planting | undefined;
  plantings(): readonly Planting[];
  /** What stood at a moment on the field, on the ground around it or on a part of it. */
  plantingsStanding(fieldId: string, at: Instant): readonly Planting[];
  recipe(id: string, at?: Instant): CurrentRecord<'recipe.published'> | undefined;
  recipes(): readonly CurrentRecord<'recipe.published'>[];
  lot(id: string): Lot | undefined;
  lots(): readonly Lot[];
  /** The unit a lot's amounts are counted in: as received, or what its household measure is worth in; null while unknown. */
  unitOfLot(id: string): string | null;
  pile(id: string): Pile | undefined;
  piles(): readonly Pile[];
  batch(id: string): Batch | undefined;
  batches(): readonly Batch[];
  batchesIn(vesselId: string): readonly Batch[];
  /** The batch and draw that a draw's subject id names. */
  draw(id: string): { readonly batch: Batch; readonly draw: Draw } | undefined;
  application(id: string): Application | undefined;
  applications(): readonly Application[];
  /** Applications that put a batch's tea somewhere. */
  applicationsOf(batchId: string): readonly Application[];
  harvest(id: string): Harvest | undefined;
  harvests(): readonly Harvest[];
  /** The ground and everything under and over it: a bed reaches its field, a field its beds. */
  sameGround(fieldId: string): ReadonlySet<string>;
}

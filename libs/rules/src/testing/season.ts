import {
  openSeason,
  operationId,
  parseDraft,
  type DataOf,
  type Instant,
  type LogRecord,
  type OpenSeason,
  type Quantity,
  type RecordType,
} from '@furrowmark/domain';
import { v5 } from 'uuid';

const namespace = '0197a000-0000-7000-8000-0000000000ff';
export const operation = operationId.parse(namespace);
const now = Date.parse('2027-06-01T00:00:00Z');

/** The id that a name stands for: the same name, the same id. */
export const id = (name: string): string => v5(name, namespace);

/** `06-03 06:10` of 2026 in the operation's zone (Chicago, summer time, UTC−5), or a text with its own year and offset. */
export const at = (text: string): string => {
  if (/^\d{4}-.*(Z|[+-]\d\d:\d\d)$/.test(text)) return text;
  const full = /^\d{4}-/.test(text) ? text : `2026-${text}`;
  const [day, time = '12:00'] = full.split(' ');
  return `${day ?? ''}T${time.length === 5 ? `${time}:00` : time}-05:00`;
};
export const instant = (text: string): Instant => Date.parse(at(text));

export const gal = (value: number): Quantity => ({ value, unit: '[gal_us]' });
export const lb = (value: number): Quantity => ({ value, unit: '[lb_av]' });
export const mgPerL = (value: number, more: Partial<Quantity> = {}): Quantity => ({ value, unit: 'mg/L', ...more });
export const fahrenheit = (value: number): Quantity => ({ value, unit: '[degF]' });
export const acres = (value: number): Quantity => ({ value, unit: '[acr_us]' });

/** Members beside `data`, where a test needs them. */
export interface Beside {
  readonly plusMinusMinutes?: number;
  /** Absent = on the spot; 'not said' = the device gave none. */
  readonly enteredAt?: string;
  readonly recordedAt?: string;
  readonly performedBy?: string;
  readonly origin?: 'observed' | 'fromMemory' | 'fromPaper' | 'instrument';
}

/** Data as a test writes it: ids are plain text, and what is left out is filled in by `fills`. */
type Loose<T> = T extends string
  ? string
  : T extends readonly (infer E)[]
    ? readonly Loose<E>[]
    : T extends object
      ? { readonly [K in keyof T]: Loose<T[K]> }
      : T;

/** Records of a season, written one after the other as a client would send them and a server would take them. */
export class SeasonBuilder {
  readonly records: LogRecord[] = [];
  #names = 0;

  /** One record of any type; returns its id. Written on the spot unless told otherwise. */
  add<T extends RecordType>(type: T, when: string, data: Loose<DataOf<T>>, beside: Beside = {}): string {
    const occurredAt = at(when);
    const { recordedAt, ...client } = beside;
    this.#names += 1;
    const parsed = parseDraft(
      {
        id: id(`record ${String(this.#names)}`),
        type,
        version: 1,
        occurredAt,
        ...client,
        enteredAt: client.enteredAt === 'not said' ? undefined : at(client.enteredAt ?? when),
        data,
      },
      { now },
    );
    if (!parsed.ok) throw new Error(`${type}: ${JSON.stringify(parsed.problem)}`);
    this.records.push({
      ...parsed.draft,
      operationId: operation,
      seq: this.records.length,
      recordedAt: at(recordedAt ?? when),
      recordedBy: id('account'),
    });
    return parsed.draft.id;
  }

  /** Quillfen Growers, Chicago time; every pack binds unless `regimes` says otherwise. */
  described(more: Partial<DataOf<'operation.described'>> = {}): this {
    this.add('operation.described', '01-01 08:00', { name: 'Quillfen Growers', timeZone: 'America/Chicago', ...more });
    return this;
  }
  source(code: string, more: Partial<DataOf<'source.registered'>> = {}): this {
    this.add('source.registered', '01-01 08:00', {
      sourceId: id(code),
      code,
      kind: 'well',
      disinfectant: 'none',
      ...more,
    });
    return this;
  }
  /** A sample with none detected in 100 mL, or with that many CFU. */
  tested(source: string, day: string, cfu: number | 'pending' | Quantity = 0): this {
    const none = { value: 1, unit: '{CFU}/(100.mL)', qualifier: 'notDetected' as const };
    const value = typeof cfu === 'object' ? cfu : cfu === 0 ? none : { value: Number(cfu), unit: '{CFU}/(100.mL)' };
    this.add('source.tested', `${day} 12:00`, {
      sourceId: id(source),
      sampledAt: at(`${day} 08:00`),
      results: cfu === 'pending' ? [] : [{ analyte: 'E. coli', value }],
    });
    return this;
  }
  vessel(code: string, more: Partial<DataOf<'vessel.registered'>> = {}): this {
    this.add('vessel.registered', '01-01 08:00', {
      vesselId: id(code),
      code,
      totalVolume: gal(330),
      workingVolume: gal(300),
      previousContents: 'none',
      ...more,
    });
    return this;
  }
  material(code: string, more: Partial<DataOf<'material.registered'>> = {}): this {
    this.add('material.registered', '01-01 08:00', {
      materialId: id(code),
      code,
      name: code,
      kind: 'compost',
      animalOrigin: 'no',
      microbialFood: 'no',
      ...more,
    });
    return this;
  }
  approved(material: string, from: string, until?: string, more: Partial<DataOf<'material.approved'>> = {}): this {
    this.add('material.approved', '01-01 09:00', {
      materialId: id(material),
      by: 'certifier',
      reference: 'letter',
      from,
      ...(until === undefined ? {} : { until }),
      ...more,
    });
    return this;
  }
  /** A lot of a material, received on 1 January. */
  lot(code: string, material: string, quantity: Quantity = lb(100), more: Partial<DataOf<'lot.received'>> = {}): this {
    this.add('lot.received', '01-01 10:00', {
      lotId: id(code),
      code,
      materialId: id(material),
      supplierLot: '1',
      quantity,
      ...more,
    });
    return this;
  }
  field(code: string, more: Partial<Loose<DataOf<'field.registered'>>> = {}): this {
    this.add('field.registered', '01-01 08:00', {
      fieldId: id(code),
      code,
      kind: 'field',
      area: acres(6),
      landStatus: 'organic',
      ...more,
    });
    return this;
  }
  instrument(code: string, more: Partial<DataOf<'instrument.registered'>> = {}): this {
    this.add('instrument.registered', '01-01 08:00', {
      instrumentId: id(code),
      code,
      kind: 'opticalProbe',
      measures: ['dissolvedOxygen'],
      ...more,
    });
    return this;
  }
  planting(name: string, field: string, more: Partial<Loose<DataOf<'planting.started'>>> = {}): this {
    this.add('planting.started', '01-02 08:00', {
      plantingId: id(name),
      fieldId: id(field),
      crop: name,
      ediblePart: 'leaf',
      ...more,
    });
    return this;
  }
  harvest(code: string, field: string, when: string, more: Partial<Loose<DataOf<'harvest.made'>>> = {}): this {
    this.add('harvest.made', when, {
      harvestId: id(code),
      code,
      fieldId: id(field),
      quantity: lb(1000),
      soldAs: 'organic',
      ...more,
    });
    return this;
  }
  adopted(
    effectiveFrom: string,
    entries: Loose<DataOf<'ruleBook.adopted'>>['entries'],
    beside: Beside & { readonly when?: string } = {},
  ): this {
    const { when = effectiveFrom, ...rest } = beside;
    this.add(
      'ruleBook.adopted',
      when,
      { effectiveFrom: at(effectiveFrom), entries, reason: 'our own limits', approvedBy: id('Ines') },
      rest,
    );
    return this;
  }
  amended<T extends RecordType>(
    recordId: string,
    type: T,
    when: string,
    data: Loose<DataOf<T>> & object,
    more: { readonly occurredAt?: string; readonly plusMinusMinutes?: number } = {},
  ): string {
    return this.add('record.amended', when, {
      recordId,
      type,
      version: 1,
      data: { ...data },
      reason: 'written wrongly',
      ...more,
      ...(more.occurredAt === undefined ? {} : { occurredAt: at(more.occurredAt) }),
    });
  }
  struck(recordId: string, type: RecordType, when: string): string {
    return this.add('record.struck', when, { recordId, type, reason: 'typed by mistake' });
  }

  /** A batch opened in a tank; its further records hang on what is returned. */
  batch(code: string, opened = '06-01 05:00', more: Partial<Loose<DataOf<'batch.opened'>>> = {}): BatchBuilder {
    this.add('batch.opened', opened, { batchId: id(code), code, kind: 'aeratedTea', vesselId: id('Tote 2'), ...more });
    return new BatchBuilder(this, code);
  }

  /** The id that a name stands for. */
  idOf(name: string): string {
    return id(name);
  }

  season(): OpenSeason {
    return openSeason(this.records);
  }
}

/** What is done to one batch, in the words of the trade. */
export class BatchBuilder {
  readonly #season: SeasonBuilder;
  readonly code: string;
  readonly batchId: string;

  constructor(season: SeasonBuilder, code: string) {
    this.#season = season;
    this.code = code;
    this.batchId = id(code);
  }

  filled(when: string, volume: Quantity = gal(250), source = 'W1', beside: Beside = {}): this {
    this.#season.add('batch.filled', when, { batchId: this.batchId, sourceId: id(source), volume }, beside);
    return this;
  }
  airOn(when: string, beside: Beside = {}): this {
    this.#season.add('batch.airStarted', when, { batchId: this.batchId }, beside);
    return this;
  }
  airOff(when: string, beside: Beside = {}, more: Partial<DataOf<'batch.airStopped'>> = {}): this {
    this.#season.add('batch.airStopped', when, { ...more, batchId: this.batchId }, beside);
    return this;
  }
  fed(when: string, lot: string, quantity: Quantity = lb(5), beside: Beside = {}): this {
    this.#season.add('batch.ingredientAdded', when, { batchId: this.batchId, lotId: id(lot), quantity }, beside);
    return this;
  }
  neutralized(when: string, lot: string, quantity: Quantity = { value: 5, unit: 'g' }): this {
    this.#season.add('batch.neutralizerAdded', when, { batchId: this.batchId, lotId: id(lot), quantity });
    return this;
  }
  chlorine(
    when: string,
    reading: { readonly free?: Quantity; readonly total?: Quantity },
    more: { readonly instrumentId?: string } = {},
    beside: Beside = {},
  ): this {
    const data = { batchId: this.batchId, method: 'kit', ...reading, ...more } as const;
    this.#season.add('batch.chlorineMeasured', when, data, beside);
    return this;
  }
  oxygen(
    when: string,
    value: number | Quantity,
    more: { readonly temperature?: Quantity; readonly instrumentId?: string } = {},
    beside: Beside = {},
  ): this {
    this.#season.add(
      'batch.oxygenMeasured',
      when,
      { batchId: this.batchId, dissolvedOxygen: typeof value === 'number' ? mgPerL(value) : value, ...more },
      beside,
    );
    return this;
  }
  checked(
    when: string,
    what: Partial<Loose<DataOf<'batch.checked'>>> = { odour: 'earthy' },
    beside: Beside = {},
  ): this {
    this.#season.add('batch.checked', when, { ...what, batchId: this.batchId }, beside);
    return this;
  }
  drawn(
    when: string,
    name: string,
    volume: Quantity,
    more: { readonly into?: string; readonly keptAerated?: boolean } = {},
  ): this {
    this.#season.add('batch.drawn', when, { drawId: id(name), batchId: this.batchId, volume, ...more });
    return this;
  }
  /** Sprayed from the tank onto a field, drawn when spraying started. */
  applied(
    name: string,
    from: string,
    to: string,
    field = 'North 4',
    volume: Quantity = gal(250),
    more: Partial<Loose<DataOf<'application.made'>>> = {},
    beside: Beside = {},
  ): this {
    this.#season.add(
      'application.made',
      to,
      {
        applicationId: id(name),
        code: name,
        targets: [{ fieldId: id(field) }],
        draws: [{ batchId: this.batchId, volume }],
        startedAt: at(from),
        finishedAt: at(to),
        method: 'soilDrench',
        applicator: id('Ines'),
        ...more,
      },
      beside,
    );
    return this;
  }
  closed(when: string, remaining?: Quantity): this {
    this.#season.add('batch.closed', when, {
      batchId: this.batchId,
      ...(remaining === undefined ? {} : { remainingVolume: remaining }),
    });
    return this;
  }
}

/**
 * The ordinary start: well W1 tested on 1 May, tote 2, compost C-1 and molasses M-1 with approvals, field North 4, an
 * optical probe checked on 1 May.
 */
export function ordinary(more: Partial<DataOf<'operation.described'>> = {}): SeasonBuilder {
  const season = new SeasonBuilder()
    .described(more)
    .source('W1')
    .tested('W1', '05-01')
    .vessel('Tote 2')
    .material('compost')
    .material('molasses', { kind: 'nutrient', microbialFood: 'yes' })
    .approved('compost', '2026-01-01')
    .approved('molasses', '2026-01-01')
    .lot('C-1', 'compost')
    .lot('M-1', 'molasses')
    .field('North 4')
    .instrument('DO-1');
  season.add('instrument.checked', '05-20 08:00', {
    instrumentId: id('DO-1'),
    standard: 'water-saturated air',
    reading: mgPerL(9),
    expected: mgPerL(9),
  });
  return season;
}

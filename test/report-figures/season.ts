import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { z } from 'zod';

/** A record as a phone sends it. */
export interface Sent {
  readonly id: string;
  readonly type: string;
  readonly version: 1;
  readonly occurredAt: string;
  readonly data: Readonly<Record<string, unknown>>;
}

/** The things of a season by the code that people write on them, each with its id. */
export interface GeneratedSeason {
  readonly records: readonly Sent[];
  readonly lots: Readonly<Record<string, string>>;
  readonly fields: Readonly<Record<string, string>>;
  readonly harvests: Readonly<Record<string, string>>;
  readonly batches: Readonly<Record<string, string>>;
}

/** Picks that a seed decides. */
class Picks {
  readonly #numbers: readonly number[];
  #next = 0;
  constructor(seed: number) {
    this.#numbers = fc.sample(fc.nat(0x3fff_ffff), { seed, numRuns: 4000 });
  }
  upTo(most: number): number {
    const number = this.#numbers[this.#next];
    if (number === undefined) throw new Error('a season asks for more picks than there are');
    this.#next += 1;
    return number % (most + 1);
  }
  between(least: number, most: number): number {
    return least + this.upTo(most - least);
  }
  of<T>(things: readonly T[]): T {
    const thing = things[this.upTo(things.length - 1)];
    if (thing === undefined) throw new Error('nothing to pick from');
    return thing;
  }
  /** True once in so many times. */
  oneIn(times: number): boolean {
    return this.upTo(times - 1) === 0;
  }
  quarters(least: number, most: number): number {
    return this.between(least * 4, most * 4) / 4;
  }
}

/** The day of the year 2026 that comes `day` days after 1 January, and the minute of it, in New York's winter or summer time. */
function moment(day: number, minute: number): string {
  const date = new Date(Date.UTC(2026, 0, 1 + day, 0, minute)).toISOString().slice(0, 16);
  const summer = date >= '2026-03-08T02:00' && date < '2026-11-01T02:00';
  return `${date}:00-0${summer ? 4 : 5}:00`;
}
const dayOf = (occurredAt: string): string => occurredAt.slice(0, 10);

const massUnits = ['[lb_av]', 'kg', '[oz_av]'];
const quantity = z.object({ value: z.number(), unit: z.string() });
const gal = (value: number) => ({ value, unit: '[gal_us]' });
const acres = (value: number) => ({ value, unit: '[acr_us]' });

/**
 * Where the fields lie and what they are: upright rectangles, each to the east or the north-east of the one before, some
 * without a buffer, some without an outline.
 */
function land(pick: Picks): Readonly<Record<string, object>> {
  /** Whole hundred-thousandths of a degree, about a metre each. */
  const rectangle = (west: number, south: number, across: number, up: number): object => {
    const [w, s, e, n] = [west, south, west + across, south + up].map((each) => each / 1e5);
    const corners = [
      [w, s],
      [e, s],
      [e, n],
      [w, n],
      [w, s],
    ];
    return { type: 'Polygon', coordinates: [corners] };
  };
  let [west, south] = [-7_512_000, 4_151_000];
  const made: Record<string, object> = {};
  for (const code of ['F-1', 'F-2', 'F-3']) {
    const [across, up] = [pick.between(80, 200), pick.between(60, 150)];
    made[code] = {
      landStatus: pick.of(['organic', 'transition', 'conventional']),
      ...(pick.oneIn(5) ? {} : { boundary: rectangle(west, south, across, up) }),
      ...(pick.oneIn(2) ? { buffer: `hedge of ${code}` } : {}),
    };
    if (code === 'F-1') made['F-1a'] = { landStatus: 'organic', boundary: rectangle(west + 10, south + 10, 30, 30) };
    west += across + pick.between(5, 85);
    south += pick.oneIn(2) ? 0 : up + pick.between(0, 50);
  }
  return made;
}

/**
 * A season that fits together, decided by a seed: every kind of record that reports add up, in three units of mass, with
 * some quantities amended and some records struck afterwards. Codes and ids are used once each.
 */
export function generatedSeason(seed: number): GeneratedSeason {
  const pick = new Picks(seed);
  const records: Sent[] = [];
  const idOf = (name: string): string => {
    const hex = createHash('sha256').update(`${seed} ${name}`).digest('hex');
    return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-7${hex.slice(13, 16)}-8${hex.slice(17, 20)}-${hex.slice(20, 32)}`;
  };
  const record = (type: string, occurredAt: string, data: Sent['data']): Sent => {
    const made: Sent = { id: idOf(`record ${records.length}`), type, version: 1, occurredAt, data };
    records.push(made);
    return made;
  };
  const mass = (least: number, most: number) => ({ value: pick.quarters(least, most), unit: pick.of(massUnits) });

  const start = moment(1, 480);
  record('person.registered', start, { personId: idOf('Ines'), personal: { name: 'Ines Harrow', address: 'Lane 1' } });
  record('source.registered', start, { sourceId: idOf('well'), code: 'Well', kind: 'well', disinfectant: 'none' });
  for (const code of ['Tote 1', 'Tote 2'])
    record('vessel.registered', start, {
      ...{ vesselId: idOf(code), code, totalVolume: gal(1200), workingVolume: gal(1100), previousContents: 'none' },
    });
  record('equipment.registered', start, { equipmentId: idOf('sprayer'), code: 'Sprayer', kind: 'sprayer' });
  record('instrument.registered', start, {
    ...{ instrumentId: idOf('probe'), code: 'Probe', kind: 'opticalProbe', measures: ['dissolvedOxygen'] },
  });
  const materials = { WC: 'vermicompost', KE: 'extract', OC: 'compost' };
  for (const [code, kind] of Object.entries(materials))
    record('material.registered', start, {
      ...{ materialId: idOf(code), code, name: `${kind} ${code}`, kind, animalOrigin: 'no', microbialFood: 'no' },
    });

  // Bed 1a lies within field 1; fields 2 and 3 stand alone.
  const fields = { 'F-1': idOf('F-1'), 'F-1a': idOf('F-1a'), 'F-2': idOf('F-2'), 'F-3': idOf('F-3') };
  const outlines = land(new Picks(seed + 7_000));
  for (const [code, fieldId] of Object.entries(fields))
    record('field.registered', start, {
      ...{ fieldId, code, kind: code === 'F-1a' ? 'bed' : 'field', area: acres(12), ...outlines[code] },
      ...(code === 'F-1a' ? { parentId: fields['F-1'] } : {}),
    });
  for (const [n, substance] of ['herbicide', 'treated seed'].entries())
    record('field.exposed', moment(pick.between(100, 290), 500 + n), {
      ...{ fieldId: pick.of(Object.values(fields)), substance, how: pick.of(['drift', 'applied']) },
    });
  const plantings = Object.entries(fields).map(([code, fieldId]) => {
    const plantingId = idOf(`planting ${code}`);
    const from = pick.between(80, 150);
    record('planting.started', moment(from, 600), {
      ...{ plantingId, fieldId, crop: `crop of ${code}`, ediblePart: 'leaf', plantedOn: dayOf(moment(from, 600)) },
    });
    return { plantingId, fieldId };
  });

  const lots: Record<string, string> = {};
  for (const n of [1, 2, 3, 4]) {
    const code = `L-${n}`;
    lots[code] = idOf(code);
    record('lot.received', moment(pick.between(5, 60), pick.between(400, 1000)), {
      ...{ lotId: idOf(code), code, materialId: idOf(n < 3 ? 'WC' : 'KE'), supplierLot: `S-${n}` },
      ...{ quantity: { value: pick.between(200, 900), unit: massUnits[n % 3] } },
    });
  }
  const bought = Object.values(lots);
  for (const n of [1, 2]) {
    const pileId = idOf(`P-${n}`);
    const from = pick.between(62, 70);
    record('pile.started', moment(from, 500), {
      ...{ pileId, code: `P-${n}`, method: 'windrow', inputs: [{ lotId: pick.of(bought), quantity: mass(5, 40) }] },
    });
    if (pick.oneIn(2))
      record('pile.added', moment(from + 1, 500), { pileId, lotId: pick.of(bought), quantity: mass(1, 9) });
    for (let day = 2; day < 2 + pick.between(3, 8); day += 1)
      record('pile.measured', moment(from + day, pick.between(500, 900)), {
        ...{ pileId, temperatures: [1, 2].map(() => ({ value: { value: pick.between(120, 165), unit: '[degF]' } })) },
      });
    for (let turn = 0; turn < pick.between(1, 6); turn += 1)
      record('pile.turned', moment(from + 3 + turn, 1000), { pileId });
    lots[`OC-${n}`] = idOf(`OC-${n}`);
    record('pile.finished', moment(from + 15, 700), {
      ...{ pileId, lotId: idOf(`OC-${n}`), code: `OC-${n}`, materialId: idOf('OC') },
      ...{ quantity: { value: pick.between(300, 600), unit: '[lb_av]' } },
    });
  }
  const allLots = Object.values(lots);

  const target = () => {
    const code = pick.of(['F-1', 'F-1a', 'F-2', 'F-3'] as const);
    const planting = plantings.find(({ fieldId }) => fieldId === fields[code]);
    return {
      ...{ fieldId: fields[code], area: acres(pick.quarters(1, 6)) },
      ...(pick.oneIn(3) && planting !== undefined ? { plantingId: planting.plantingId } : {}),
    };
  };
  let applied = 0;
  const apply = (day: number, minute: number, draws: readonly object[], drawn: number) => {
    applied += 1;
    const targets = pick.oneIn(2) ? [target()] : [target(), target()];
    // The volume of each target, where the applicator wrote it: all of what was drawn, in two parts.
    const written = targets.length === 2 && pick.oneIn(3);
    record('application.made', moment(day, minute + 90), {
      ...{ applicationId: idOf(`A-${applied}`), code: `A-${applied}`, draws },
      targets: targets.map((each, index) =>
        written ? { ...each, volume: gal(index === 0 ? drawn * 0.25 : drawn * 0.75) } : each,
      ),
      ...(pick.oneIn(4) ? { tankMix: [{ lotId: pick.of(allLots), quantity: mass(1, 3) }] } : {}),
      ...{ startedAt: moment(day, minute), finishedAt: moment(day, minute + 90) },
      ...{ method: 'soilDrench', applicator: idOf('Ines'), equipmentId: idOf('sprayer') },
    });
  };
  for (let n = 1; n <= 6; n += 1) {
    const batchId = idOf(`T-${n}`);
    const day = 95 + n * 18 + pick.upTo(8);
    const filled = pick.between(600, 1000);
    record('batch.opened', moment(day, n === 3 ? 2 : 420), {
      ...{ batchId, code: `T-${n}`, kind: 'aeratedTea', vesselId: idOf(n % 2 === 0 ? 'Tote 1' : 'Tote 2') },
    });
    // One is filled just after midnight: a day's border that only the zone tells.
    record('batch.filled', moment(day, n === 3 ? 5 : 440), { batchId, sourceId: idOf('well'), volume: gal(filled) });
    record('batch.airStarted', moment(day, 441), { batchId });
    for (let k = 0; k < pick.between(1, 3); k += 1)
      record('batch.ingredientAdded', moment(day, 470 + k), {
        batchId,
        lotId: pick.of(allLots),
        quantity: mass(2, 20),
      });
    for (const hour of [10, 14, 20])
      record('batch.oxygenMeasured', moment(day, hour * 60), {
        ...{ batchId, dissolvedOxygen: { value: pick.between(50, 95) / 10, unit: 'mg/L' } },
      });
    // Sometimes early: then the brew is short and the hold long.
    const early = pick.of([0, 0, 120, 240, 300]);
    record('batch.airStopped', moment(day + 1, 480 - early), { batchId, cause: 'planned' });
    let left = filled;
    const take = (most: number): number => {
      const volume = Math.min(left, pick.between(20, most));
      left -= volume;
      return volume;
    };
    for (let k = 0; k < pick.between(1, 3); k += 1) {
      const minute = 490 + k * 150;
      const volume = take(200);
      if (pick.oneIn(3)) {
        apply(day + 1, minute + 10, [{ batchId, volume: gal(volume) }], volume);
        continue;
      }
      const drawId = idOf(`D-${n}-${k}`);
      record('batch.drawn', moment(day + 1, minute), { drawId, batchId, volume: gal(volume) });
      const fate = pick.of(['dumped', 'putBack', null, null] as const);
      const rest = fate === null ? 0 : pick.between(1, 9);
      apply(day + 1, minute + 10, [{ drawId }], volume - rest);
      if (fate !== null)
        record('draw.ended', moment(day + 1, minute + 120), { drawId, volume: gal(rest), fate, where: 'pad' });
      if (fate === 'putBack') left += rest;
    }
    if (pick.oneIn(3))
      record('tea.supplied', moment(day + 1, 950), {
        ...{ batchId, volume: gal(take(90)), to: { name: 'Neighbour' }, statementGiven: 'yes', sold: 'no' },
      });
    if (pick.oneIn(2)) record('batch.lost', moment(day + 1, 960), { batchId, volume: gal(take(30)), cause: 'foam' });
    if (pick.oneIn(2))
      record('batch.disposed', moment(day + 1, 970), { batchId, volume: gal(take(60)), reason: 'old', where: 'ditch' });
    record('batch.closed', moment(day + 1, 980), { batchId, remainingVolume: gal(Math.max(0, left - pick.upTo(20))) });
    record('vessel.cleaned', moment(day + 1, 1000), {
      ...{ vesselId: idOf(n % 2 === 0 ? 'Tote 1' : 'Tote 2'), method: 'brushed', rinsed: true },
    });
  }

  const harvests: Record<string, string> = {};
  for (let n = 1; n <= 5; n += 1) {
    const planting = pick.of(plantings);
    const code = `H-${n}`;
    const day = pick.between(180, 290);
    harvests[code] = idOf(code);
    record('harvest.made', moment(day, 700), {
      ...{ harvestId: idOf(code), code, fieldId: planting.fieldId, soldAs: 'organic', quantity: mass(200, 900) },
      ...(pick.oneIn(3) ? {} : { plantingId: planting.plantingId }),
    });
    for (let k = 0; k < pick.upTo(2); k += 1)
      record('harvest.shipped', moment(day + 1 + k, 600), {
        ...{ harvestId: idOf(code), quantity: mass(1, 80), to: 'Packing shed', reference: `BOL ${n}-${k}` },
      });
  }
  for (const lotId of allLots) {
    if (pick.oneIn(2))
      record('lot.disposed', moment(pick.between(120, 290), 800), { lotId, quantity: mass(1, 5), reason: 'wet' });
    if (pick.oneIn(2)) record('lot.counted', moment(pick.between(120, 290), 820), { lotId, quantity: mass(50, 200) });
  }
  for (let n = 0; n < 4; n += 1) {
    const on = moment(pick.between(100, 290), 400);
    record('instrument.checked', on, {
      ...{ instrumentId: idOf('probe'), standard: 'air', reading: { value: 99, unit: '%' } },
      expected: { value: 100, unit: '%' },
    });
    record('person.trained', on, { personId: idOf('Ines'), topic: 'handling of tea', by: 'office' });
    record('equipment.used', on, { equipmentId: idOf('sprayer'), what: 'water', prohibited: 'no' });
  }

  correct(pick, records, record);
  const batches = Object.fromEntries([1, 2, 3, 4, 5, 6].map((n) => [`T-${n}`, idOf(`T-${n}`)]));
  return { records, lots, fields, harvests, batches };
}

const amendable = ['batch.ingredientAdded', 'lot.disposed', 'harvest.shipped', 'batch.lost', 'lot.received'];
const strikable = [
  ...['application.made', 'batch.ingredientAdded', 'lot.disposed', 'harvest.shipped', 'vessel.cleaned', 'pile.turned'],
];

/** Some quantities turned to others, some records withdrawn, in November: each record at most once, some both ways. */
function correct(
  pick: Picks,
  records: readonly Sent[],
  record: (type: string, at: string, data: Sent['data']) => Sent,
) {
  const amended = new Set<string>();
  const made = [...records];
  const some = (types: readonly string[], count: number) =>
    Array.from({ length: count }, () => pick.of(made.filter(({ type }) => types.includes(type))));
  for (const [n, { id: recordId, type, version, data }] of some(amendable, 8).entries()) {
    if (amended.has(recordId)) continue;
    amended.add(recordId);
    const member = 'volume' in data ? 'volume' : 'quantity';
    const { value, unit } = quantity.parse(data[member]);
    record('record.amended', moment(306, 500 + n), {
      ...{ recordId, type, version, reason: 'misread', data: { ...data, [member]: { value: value + 1.25, unit } } },
    });
  }
  for (const [n, { id: recordId, type }] of some(strikable, 5).entries())
    record('record.struck', moment(307, 500 + n), { recordId, type, reason: 'entered twice' });
}

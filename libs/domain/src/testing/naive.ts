import { Decimal } from 'decimal.js';
import { drawSubjectId } from '../fold/applications.ts';
import { rankOf } from '../records/catalogue.ts';
import type { RecordType } from '../records/catalogue.ts';
import type { LogRecord } from '../records/record.ts';

/**
 * A second fold, written from the definitions alone, slow and plain: it sorts everything anew, runs all tanks in one
 * loop, and asks the air minute by event. The model test holds the real one against it. It takes uncertain times as
 * recorded (the model test moves them about within their bounds) and knows no rings of corrections, which have tests of
 * their own.
 */
const Exact = Decimal.clone({ precision: 300, rounding: Decimal.ROUND_DOWN });
const down = (value: Decimal) => value.toDecimalPlaces(24, Decimal.ROUND_DOWN);
const dec = (value: Decimal.Value) => new Exact(value);

interface Amount {
  value: number;
  unit: string;
}

/** Every member this fold looks at, of whatever record. */
interface Loose {
  batchId?: string;
  intoBatchId?: string;
  lotId?: string;
  materialId?: string;
  drawId?: string;
  applicationId?: string;
  recordId?: string;
  type?: string;
  data?: unknown;
  occurredAt?: string;
  code?: string;
  kind?: string;
  microbialFood?: string;
  odour?: string;
  fate?: string;
  keptAerated?: boolean;
  quantity?: Amount;
  volume?: Amount;
  draws?: Loose[];
  drawnAt?: string;
  startedAt?: string;
  finishedAt?: string;
  lastKnownRunningAt?: string;
  foundAt?: string;
}

interface Fact {
  id: string;
  type: RecordType;
  at: number;
  data: Loose;
}

function standing(records: readonly LogRecord[]): Fact[] {
  const now = (record: LogRecord): { struck: boolean; data: unknown; at: number } => {
    const corrections = records
      .filter((each) => each.type === 'record.amended' || each.type === 'record.struck')
      .filter((each) => read(each.data).recordId === record.id && read(each.data).type === record.type)
      .map((each) => ({ each, ...now(each) }))
      .filter(({ struck }) => !struck)
      .sort((a, b) => a.at - b.at || rankOf(a.each.type) - rankOf(b.each.type) || (a.each.id < b.each.id ? -1 : 1));
    const amendment = corrections.findLast(({ each }) => each.type === 'record.amended');
    const change = amendment === undefined ? {} : read(amendment.data);
    return {
      struck: corrections.some(({ each }) => each.type === 'record.struck'),
      data: change.data ?? record.data,
      at: Date.parse(String(change.occurredAt ?? record.occurredAt)),
    };
  };
  return records
    .map((record) => ({ record, ...now(record) }))
    .filter((each) => !each.struck)
    .map(({ record, data, at }) => ({
      id: record.id,
      type: record.type,
      at: happened(at, read(data)),
      data: read(data),
    }))
    .sort((a, b) => a.at - b.at || rankOf(a.type) - rankOf(b.type) || (a.id < b.id ? -1 : 1));
}

/** Air found off stopped after it was last known to run and before it was found off, whatever time was written. */
function happened(at: number, { lastKnownRunningAt, foundAt }: Loose): number {
  const after = lastKnownRunningAt === undefined ? at : Math.max(at, Date.parse(lastKnownRunningAt));
  return foundAt === undefined ? after : Math.min(after, Date.parse(foundAt));
}

const read = (value: unknown): Loose => value as Loose; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- a test's plain reading of what the real fold reads by type

const kilogramsPer: Record<string, Decimal> = {
  '[lb_av]': dec('0.45359237'),
  '[oz_av]': dec('0.45359237').div(16),
  kg: dec(1),
  g: dec('0.001'),
};

const litresOf = (quantity: Amount | undefined): Decimal =>
  down(dec(quantity?.value ?? 0).times(quantity?.unit === '[gal_us]' ? '3.785411784' : 1));

/** What a batch's facts come to, as far as this fold goes: instants in milliseconds, lengths in hours. */
interface NaiveBatch {
  readonly topUps: readonly string[];
  readonly draws: readonly {
    readonly id: string;
    readonly at: number;
    readonly brewHours: number | null;
    readonly holdHours: number | null;
  }[];
}

export function naiveBatches(records: readonly LogRecord[]): Record<string, NaiveBatch> {
  const facts = standing(records);
  const of = (type: RecordType) => facts.filter((fact) => fact.type === type);
  const last = (type: RecordType, key: 'lotId' | 'materialId' | 'drawId' | 'applicationId', id: unknown) =>
    of(type).findLast((fact) => fact.data[key] === id);

  const described = (lotId: unknown) =>
    facts.findLast((fact) => ['lot.received', 'pile.finished'].includes(fact.type) && fact.data.lotId === lotId);
  const lotUnit = (lotId: unknown): string | null => {
    const lot = described(lotId);
    return lot?.data.quantity?.unit ?? null;
  };
  const amountOf = (lotId: unknown, quantity: Amount | undefined): Decimal | null => {
    const unit = lotUnit(lotId);
    if (quantity?.unit === 'L' && unit === 'L') return down(dec(quantity.value));
    const [from, to] = [kilogramsPer[quantity?.unit ?? ''], kilogramsPer[unit ?? '']];
    return from === undefined || to === undefined
      ? null
      : down(
          dec(quantity?.value ?? 0)
            .times(from)
            .div(to),
        );
  };
  const material = (lotId: unknown): Loose | undefined => {
    const lot = described(lotId);
    return lot && last('material.registered', 'materialId', lot.data.materialId)?.data;
  };

  // ---- loads, from draws and from applications
  interface Load {
    id: string;
    batchId: string;
    at: number;
    litres: Decimal;
    kept: boolean;
    uses: Fact[];
  }
  const applications = of('application.made').filter(
    (fact) => last('application.made', 'applicationId', fact.data.applicationId) === fact,
  );
  const loads: Load[] = [];
  for (const drawn of of('batch.drawn')) {
    if (last('batch.drawn', 'drawId', drawn.data.drawId) !== drawn) continue;
    loads.push({
      id: drawn.data.drawId ?? '',
      batchId: drawn.data.batchId ?? '',
      at: drawn.at,
      litres: litresOf(drawn.data.volume),
      kept: drawn.data.keptAerated === true,
      uses: applications.filter((made) => (made.data.draws ?? []).some((load) => load.drawId === drawn.data.drawId)),
    });
  }
  for (const made of applications) {
    const seen: Record<string, number> = {};
    for (const load of made.data.draws ?? []) {
      const batchId: string | undefined = load.batchId;
      if (batchId === undefined) continue;
      const further = seen[batchId] ?? 0;
      seen[batchId] = further + 1;
      loads.push({
        id: drawSubjectId(made.data.applicationId ?? '', batchId, further),
        batchId,
        at: Date.parse(load.drawnAt ?? made.data.startedAt ?? ''),
        litres: litresOf(load.volume),
        kept: false,
        uses: [made],
      });
    }
  }
  const endings = (load: Load) => of('draw.ended').filter((fact) => fact.data.drawId === load.id);

  // ---- all tanks in one loop
  interface Body {
    litres: Decimal;
    holds: Record<string, Decimal>;
  }
  const tanks: Record<string, Body> = {};
  const tank = (id: string): Body => (tanks[id] ??= { litres: dec(0), holds: {} });
  const content: Record<string, string[]> = {};
  const out: Record<string, { share: Decimal | null; body: Body; first: Record<string, Decimal> }> = {};
  const lotBooks: Record<string, Record<string, Record<string, Decimal>>> = {};
  const shareBook = (batchId: string, column: string, holds: Record<string, Decimal>, sign: number) => {
    for (const [recordId, share] of Object.entries(holds)) {
      const fact = facts.find((each) => each.id === recordId);
      if (fact === undefined || fact.data.lotId === undefined) continue;
      const amount = amountOf(fact.data.lotId, fact.data.quantity);
      if (amount === null) continue;
      const line = ((lotBooks[batchId] ??= {})[fact.data.lotId] ??= {});
      line[column] = (line[column] ?? dec(0)).plus(share.times(amount).times(sign));
    }
  };
  const take = (body: Body, litres: Decimal): { share: Decimal | null; holds: Record<string, Decimal> } => {
    const holds: Record<string, Decimal> = {};
    let share: Decimal | null;
    if (body.litres.isZero() && litres.gt(0)) share = null;
    else if (litres.gt(0) && litres.gte(body.litres)) share = dec(1);
    else share = litres.isZero() ? dec(0) : down(litres.div(body.litres));
    const empties = litres.eq(body.litres) && litres.gt(0);
    for (const [id, held] of Object.entries(body.holds)) {
      holds[id] = share === null ? dec(0) : share.eq(1) ? held : down(held.times(share));
      body.holds[id] = held.minus(holds[id]);
    }
    if (empties) body.holds = {};
    body.litres = Decimal.max(0, body.litres.minus(litres));
    return { share, holds };
  };
  const pour = (body: Body, litres: Decimal, holds: Record<string, Decimal>) => {
    body.holds = Object.fromEntries(Object.entries(body.holds).filter(([, held]) => !held.isZero()));
    body.litres = body.litres.plus(litres);
    for (const [id, held] of Object.entries(holds)) body.holds[id] = (body.holds[id] ?? dec(0)).plus(held);
  };
  const note = (batchId: string) => (content[batchId] ??= []).push(tank(batchId).litres.toFixed());
  const waterBefore: Record<string, Decimal> = {};

  interface Event {
    at: number;
    rank: number;
    id: string;
    run: () => void;
  }
  const events: Event[] = [];
  const on = (at: number, type: RecordType, id: string, run: () => void) =>
    events.push({ at, rank: rankOf(type), id, run });
  for (const fact of facts) {
    const batchId: string = fact.data.batchId ?? '';
    const volume = () => litresOf(fact.data.volume);
    if (fact.type === 'batch.filled') {
      on(fact.at, fact.type, fact.id, () => {
        waterBefore[fact.id] = tank(batchId).litres;
        pour(tank(batchId), volume(), { [fact.id]: dec(1) });
        note(batchId);
      });
    }
    if (fact.type === 'batch.ingredientAdded' || fact.type === 'batch.neutralizerAdded') {
      on(fact.at, fact.type, fact.id, () => {
        tank(batchId).holds[fact.id] = dec(1);
        shareBook(batchId, 'added', { [fact.id]: dec(1) }, 1);
      });
    }
    if (fact.type === 'batch.lost' || fact.type === 'batch.disposed' || fact.type === 'tea.supplied') {
      on(fact.at, fact.type, fact.id, () => {
        const { holds } = take(tank(batchId), volume());
        shareBook(batchId, fact.type === 'tea.supplied' ? 'drawn' : 'lost', holds, 1);
        note(batchId);
      });
    }
  }
  for (const load of loads) {
    on(load.at, 'batch.drawn', load.id, () => {
      const { share, holds } = take(tank(load.batchId), load.litres);
      out[load.id] = { share, body: { litres: load.litres, holds: { ...holds } }, first: holds };
      shareBook(load.batchId, 'drawn', holds, 1);
      note(load.batchId);
    });
    for (const ended of endings(load)) {
      on(Math.max(ended.at, load.at), 'draw.ended', ended.id, () => {
        const litres = litresOf(ended.data.volume);
        const { holds } = take(out[load.id]?.body ?? { litres: dec(0), holds: {} }, litres);
        const back = ended.data.fate === 'putBack';
        const into: string | undefined = back
          ? load.batchId
          : ended.data.fate === 'carriedOver'
            ? ended.data.intoBatchId
            : undefined;
        if (into === undefined) return;
        pour(tank(into), litres, holds);
        if (into === load.batchId) shareBook(load.batchId, 'drawn', holds, -1);
        if (into !== load.batchId) shareBook(into, 'added', holds, 1);
        note(into);
      });
    }
  }
  events.sort((a, b) => a.at - b.at || a.rank - b.rank || (a.id < b.id ? -1 : 1));
  for (const event of events) event.run();
  for (const [id, body] of Object.entries(tanks)) shareBook(id, 'left', body.holds, 1);

  // ---- each batch
  const ids = new Set<string>();
  for (const fact of facts) {
    if (fact.type.startsWith('record.')) continue;
    for (const key of ['batchId', 'intoBatchId'] as const) if (fact.data[key] !== undefined) ids.add(fact.data[key]);
    for (const load of fact.data.draws ?? []) if (load.batchId !== undefined) ids.add(load.batchId);
  }
  const result: Record<string, NaiveBatch & Record<string, unknown>> = {};
  for (const id of [...ids].sort()) {
    const mine = facts.filter((fact) => fact.data.batchId === id);
    const mineOf = (...types: RecordType[]) => mine.filter((fact) => types.includes(fact.type));
    const starts = (fact: Fact) =>
      !['antifoam', 'neutralizer', 'sanitizer'].includes(String(material(fact.data.lotId)?.kind));
    const feeds = (fact: Fact) => {
      const known = material(fact.data.lotId);
      return (
        known !== undefined &&
        starts(fact) &&
        (['compost', 'vermicompost'].includes(String(known.kind)) || String(known.microbialFood) === 'yes')
      );
    };
    const ingredients = mineOf('batch.ingredientAdded');
    const brewStart = ingredients.find(starts)?.at ?? null;
    const foodFrom =
      ingredients.find((fact) => feeds(fact) || (starts(fact) && material(fact.data.lotId) === undefined))?.at ?? null;
    const two = 2 * 3600_000;
    const topUps =
      brewStart === null
        ? []
        : mineOf('batch.ingredientAdded', 'batch.filled')
            .filter((fact) => fact.at - brewStart > two)
            .filter((fact) => {
              if (fact.type === 'batch.ingredientAdded') return feeds(fact);
              const before = waterBefore[fact.id] ?? dec(0);
              const litres = litresOf(fact.data.volume);
              return before.isZero() || litres.gte(before.div(10));
            });
    // The air, event by event: on, off, or (before a first stop) taken as on.
    const air = mineOf('batch.airStarted', 'batch.airStopped');
    const changes = air.filter((fact, i) => (i === 0 ? true : fact.type !== air[i - 1]?.type));
    const airAt = (at: number) => {
      const since = changes.findLast((fact) => fact.at <= at);
      if (since === undefined) return changes[0]?.type === 'batch.airStopped' ? 'on' : 'never';
      return since.type === 'batch.airStarted' ? 'on' : since.at;
    };
    const drawsHere = loads.filter((load) => load.batchId === id).sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
    const checks = [
      ...mineOf('batch.oxygenMeasured'),
      ...mineOf('batch.checked').filter((fact) => ['earthy', 'sweet', 'yeasty'].includes(String(fact.data.odour))),
    ];
    const interruptions = changes
      .filter((fact) => fact.type === 'batch.airStopped')
      .map((stop) => {
        const start = changes[changes.indexOf(stop) + 1];
        const next = start && drawsHere.find((load) => load.at >= start.at);
        return {
          stopped: stop.at,
          restarted: start?.at ?? null,
          duringBrew: foodFrom !== null && (start === undefined || start.at > foodFrom),
          checkedAfter:
            start !== undefined &&
            checks.some((check) => check.at >= start.at && (next === undefined || check.at <= next.at)),
        };
      });
    const draws = drawsHere.map((load) => {
      const tankAir = airAt(load.at);
      const airOff = typeof tankAir === 'number' ? tankAir : null;
      const started =
        load.uses.length === 0 ? null : Math.max(...load.uses.map((made) => Date.parse(made.data.startedAt ?? '')));
      const finished =
        load.uses.length === 0 ? null : Math.max(...load.uses.map((made) => Date.parse(made.data.finishedAt ?? '')));
      const lastTankAir = tankAir === 'never' ? null : (airOff ?? load.at);
      const carried = load.kept && started !== null;
      const lastAir = carried ? Math.max(lastTankAir ?? started, started) : lastTankAir;
      let unchecked = 0;
      for (const each of interruptions) {
        if (each.restarted === null || !each.duringBrew || each.restarted > load.at) continue;
        const { restarted } = each;
        if (checks.some((check) => check.at >= restarted && check.at <= load.at)) continue;
        const minutes = (restarted - each.stopped) / 60_000;
        if (minutes > 60) unchecked += minutes;
      }
      if (carried && airOff !== null && !checks.some((check) => check.at >= load.at && check.at <= started)) {
        const minutes = (load.at - airOff) / 60_000;
        if (minutes > 60) unchecked += minutes;
      }
      const from =
        brewStart === null || brewStart > load.at
          ? null
          : (topUps.findLast((fact) => fact.at <= load.at)?.at ?? brewStart);
      const end = airOff === null ? load.at : Math.min(airOff, load.at);
      const held: Record<string, Decimal> = {};
      for (const [recordId, share] of Object.entries(out[load.id]?.first ?? {})) {
        const fact = facts.find((each) => each.id === recordId);
        const amount = fact?.data.lotId === undefined ? null : amountOf(fact.data.lotId, fact.data.quantity);
        if (amount !== null && fact !== undefined) {
          const lotId = String(fact.data.lotId);
          held[lotId] = (held[lotId] ?? dec(0)).plus(share.times(amount));
        }
      }
      return {
        id: load.id,
        at: load.at,
        litres: load.litres.toFixed(),
        share: out[load.id]?.share?.toNumber() ?? null,
        lots: Object.fromEntries(Object.entries(held).map(([lotId, amount]) => [lotId, amount.toFixed()])),
        brewHours: from === null ? null : Math.max(0, end - from) / 3600_000,
        holdHours:
          lastAir === null || finished === null ? null : Math.max(0, finished - lastAir) / 3600_000 + unchecked / 60,
        applicationId: load.uses[0]?.data.applicationId ?? null,
      };
    });
    const sum = (values: Decimal[]) => values.reduce((a, b) => a.plus(b), dec(0)).toFixed();
    const volumes = (...types: RecordType[]) => sum(mineOf(...types).map((fact) => litresOf(fact.data.volume)));
    const lastAir = changes.at(-1);
    const closed = mineOf('batch.closed').at(-1) !== undefined;
    result[id] = {
      code: mineOf('batch.opened').at(-1)?.data.code ?? id.slice(0, 8),
      phase: closed
        ? 'closed'
        : brewStart !== null
          ? lastAir?.type === 'batch.airStopped'
            ? 'holding'
            : 'brewing'
          : lastAir?.type === 'batch.airStarted'
            ? 'aerating'
            : mineOf('batch.filled').length > 0
              ? 'filled'
              : 'open',
      brewStart,
      airOff: lastAir?.type === 'batch.airStopped' ? lastAir.at : null,
      topUps: topUps.map((fact) => fact.id).sort(),
      interruptions,
      draws,
      content: content[id] ?? [],
      drawnL: sum(drawsHere.map((load) => load.litres)),
      lostL: volumes('batch.lost'),
      disposedL: volumes('batch.disposed'),
      suppliedL: volumes('tea.supplied'),
      waterL: volumes('batch.filled'),
      lots: Object.fromEntries(
        Object.entries(lotBooks[id] ?? {})
          .sort(([a], [b]) => (a < b ? -1 : 1))
          .map(([lotId, line]) => [
            lotId,
            ['added', 'drawn', 'lost', 'left'].map((column) => (line[column] ?? dec(0)).toFixed()),
          ]),
      ),
    };
  }
  return result;
}

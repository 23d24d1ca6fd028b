import type { Moment } from '../facts/time.ts';
import { comparePlaces, type Place } from '../order.ts';
import type { Decimal } from '../quantity/decimal.ts';
import type { RecordId } from '../records/ids.ts';
import { cut, nothing, ratioOf, whole } from './exact.ts';

/**
 * What is followed through the tanks: each addition (a lot's amount, a fill, tea received) is one parcel, named by the
 * record that brought it in, and every body of tea holds a share 0–1 of it. Shares are cut to 24 places where tea is
 * parted and the rest is found by subtraction, so the shares of a parcel always add up to 1.
 */
export type Parcels = ReadonlyMap<string, Decimal>;

export type TankEvent = Place & {
  readonly batchId: string;
  readonly at: Moment;
  readonly recordId: RecordId;
} & (
    | { readonly kind: 'fill'; readonly litres: Decimal | null }
    | { readonly kind: 'add' }
    | { readonly kind: 'draw'; readonly drawId: string; readonly litres: Decimal | null }
    | {
        readonly kind: 'ended';
        readonly drawId: string;
        readonly litres: Decimal | null;
        /** The tank it went into: back into its own, over into another; null where it left both. */
        readonly into: string | null;
      }
    | { readonly kind: 'loss'; readonly how: 'lost' | 'disposed' | 'supplied'; readonly litres: Decimal | null }
  );

export interface Portion {
  readonly recordId: RecordId;
  /** Share of the tank (of the draw, where a draw ended); null where it cannot be told. */
  readonly share: Decimal | null;
  readonly parcels: Parcels;
}

export interface DrawnTea extends Portion {
  /** What the draw held when it left the tank is `parcels`; what was left of it after the `ended` portions: */
  readonly kept: Parcels;
  readonly ended: readonly Portion[];
}

export interface TankHistory {
  /** Litres in the tank after each event that changed them; null from an unknown volume on. */
  readonly content: readonly {
    readonly at: Moment;
    readonly before: Decimal | null;
    readonly litres: Decimal | null;
    readonly recordId: RecordId;
  }[];
  readonly draws: ReadonlyMap<string, DrawnTea>;
  readonly losses: ReadonlyMap<string, Portion>;
  /** What other batches' draws brought in, by the record that carried it over. */
  readonly carriedIn: ReadonlyMap<string, Parcels>;
  readonly left: Parcels;
  readonly leftLitres: Decimal | null;
  /** More was taken out than was recorded as put in. */
  readonly overdrawn: boolean;
}

class Body {
  litres: Decimal | null = nothing;
  parcels = new Map<string, Decimal>();
  overdrawn = false;

  fill(litres: Decimal | null, parcels: Parcels): void {
    // After an overdraw traces of nothing may stand; fresh content begins anew.
    for (const [id, share] of this.parcels) if (share.isZero()) this.parcels.delete(id);
    this.litres = this.litres === null || litres === null ? null : this.litres.plus(litres);
    for (const [id, share] of parcels) this.parcels.set(id, share.plus(this.parcels.get(id) ?? nothing));
  }

  /**
   * Takes a volume, and its share of everything in the body. Where the content is not known, or nothing was recorded
   * as put in, the share cannot be told: then nothing moves, but what the tea may hold stays named, with a share of 0.
   */
  take(litres: Decimal | null): Omit<Portion, 'recordId'> {
    const content = this.litres;
    this.litres = content === null || litres === null ? null : content.gt(litres) ? content.minus(litres) : nothing;
    if (content === null || litres === null || (content.isZero() && litres.gt(0))) {
      if (content !== null && litres !== null) this.overdrawn = true;
      return { share: null, parcels: new Map([...this.parcels.keys()].map((id) => [id, nothing])) };
    }
    if (litres.gte(content) && litres.gt(0)) {
      const parcels = this.parcels;
      const over = litres.gt(content);
      if (over) this.overdrawn = true;
      this.parcels = over ? new Map([...parcels.keys()].map((id) => [id, nothing])) : new Map();
      return { share: whole, parcels };
    }
    const share = litres.isZero() ? nothing : ratioOf(litres, content);
    const parcels = new Map<string, Decimal>();
    for (const [id, held] of this.parcels) {
      const part = cut(held.times(share));
      parcels.set(id, part);
      this.parcels.set(id, held.minus(part));
    }
    return { share, parcels };
  }
}

class Tank {
  readonly body = new Body();
  readonly content: TankHistory['content'][number][] = [];
  readonly draws = new Map<string, { drawn: Portion; body: Body; ended: Portion[] }>();
  readonly losses = new Map<string, Portion>();
  readonly carriedIn = new Map<string, Parcels>();

  history(): TankHistory {
    const draws = new Map<string, DrawnTea>();
    for (const [id, { drawn, body, ended }] of this.draws) draws.set(id, { ...drawn, kept: body.parcels, ended });
    const { content, losses, carriedIn, body } = this;
    const { parcels: left, litres: leftLitres, overdrawn } = body;
    return { content, draws, losses, carriedIn, left, leftLitres, overdrawn };
  }
}

/** The id that a parcel goes by once it has entered the followed tank from another one. */
const followedId = (id: string, batchId: string) => (id.includes('>') ? id : `${id}>${batchId}`);
/** The record that brought a parcel in, whichever tanks it has passed. */
export const recordOfParcel = (id: string): string => id.split('>', 1)[0] ?? id;

/**
 * Runs the tanks of batches that exchanged tea, event by event in order of time, each well mixed: whatever leaves takes
 * its share of everything in the tank at that moment. With `followed`, parcels that came into that batch's tank from
 * another are told apart from then on (`record>batch`), so that the tea of one batch can be followed through others.
 */
export function runTanks(
  batchIds: Iterable<string>,
  events: readonly TankEvent[],
  followed?: string,
): ReadonlyMap<string, TankHistory> {
  const tanks = new Map([...batchIds].map((id) => [id, new Tank()]));
  for (const event of [...events].sort(comparePlaces)) {
    const tank = tanks.get(event.batchId);
    if (tank !== undefined) run(event, tank, tanks, followed);
  }
  return new Map([...tanks].map(([id, tank]) => [id, tank.history()]));
}

function run(event: TankEvent, tank: Tank, tanks: ReadonlyMap<string, Tank>, followed: string | undefined): void {
  const { recordId, at } = event;
  if (event.kind === 'add') {
    tank.body.parcels.set(recordId, whole);
    return;
  }
  if (event.kind === 'ended') {
    end(event, tank, event.into === null ? undefined : tanks.get(event.into), event.into === followed);
    return;
  }
  const before = tank.body.litres;
  if (event.kind === 'fill') tank.body.fill(event.litres, new Map([[recordId, whole]]));
  if (event.kind === 'loss') tank.losses.set(recordId, { recordId, ...tank.body.take(event.litres) });
  if (event.kind === 'draw') {
    const drawn = { recordId, ...tank.body.take(event.litres) };
    const body = new Body();
    body.fill(event.litres, drawn.parcels);
    tank.draws.set(event.drawId, { drawn, body, ended: [] });
  }
  tank.content.push({ at, before, litres: tank.body.litres, recordId });
}

function end(event: TankEvent & { readonly kind: 'ended' }, from: Tank, into: Tank | undefined, follow: boolean): void {
  const draw = from.draws.get(event.drawId);
  if (draw === undefined) return;
  const { recordId, at, litres } = event;
  const portion = { recordId, ...draw.body.take(litres) };
  draw.ended.push(portion);
  if (into === undefined) return;
  const before = into.body.litres;
  const parcels =
    follow && into !== from ? renamed(portion.parcels, (id) => followedId(id, event.into ?? '')) : portion.parcels;
  into.body.fill(litres, parcels);
  if (into !== from) into.carriedIn.set(recordId, parcels);
  into.content.push({ at, before, litres: into.body.litres, recordId });
}

function renamed(parcels: Parcels, name: (id: string) => string): Parcels {
  const found = new Map<string, Decimal>();
  for (const [id, share] of parcels) found.set(name(id), share.plus(found.get(name(id)) ?? nothing));
  return found;
}

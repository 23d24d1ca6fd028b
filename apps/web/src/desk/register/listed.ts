import type { Instant, Season } from '@furrowmark/domain';
import { householdMeasures } from '../../quantity/measures.ts';
import type { Engine } from '../../season/engine.ts';
import type { RegisterType } from './members.ts';

/** A thing of a register, as a list shows it. */
export interface Listed {
  readonly id: string;
  readonly recordId: string;
  readonly code: string;
  /** What it says now, revisions included. */
  readonly now: object;
  readonly retired: string | null;
}

interface Thing {
  readonly id: string;
  readonly registered: object;
  readonly recordIds: readonly string[];
  readonly rivals: readonly string[];
  readonly retired?: { readonly reason: string };
}

/** The registers that have no page of their own. */
export const listedTypes = [
  'vessel.registered',
  'source.registered',
  'instrument.registered',
  'equipment.registered',
  'measure.registered',
  'material.registered',
] as const satisfies readonly RegisterType[];

/** What a register has, by code; what is out of use last. */
export function listed(
  engine: Engine,
  season: Season,
  type: (typeof listedTypes)[number],
  at: Instant,
): readonly Listed[] {
  const { asOf } = engine.domain;
  const show = (thing: Thing, now: object): Listed => {
    const code: unknown = Reflect.get(now, 'code') ?? Reflect.get(now, 'name');
    return {
      id: thing.id,
      // Of several registrations the last is shown; its rivals stand before it.
      recordId: thing.recordIds[thing.rivals.length] ?? thing.recordIds[0] ?? '',
      code: typeof code === 'string' ? code : '',
      now,
      retired: thing.retired?.reason ?? null,
    };
  };
  const all = {
    'vessel.registered': () => season.vessels().map((each) => show(each, asOf(each, at))),
    'source.registered': () => season.sources().map((each) => show(each, asOf(each, at))),
    'instrument.registered': () => season.instruments().map((each) => show(each, asOf(each, at))),
    'equipment.registered': () => season.allEquipment().map((each) => show(each, asOf(each, at))),
    'measure.registered': () => householdMeasures(season).map((each) => show(each, asOf(each, at))),
    'material.registered': () => season.materials().map((each) => show(each, asOf(each, at))),
  }[type]();
  return all.toSorted(
    (a, b) => Number(a.retired !== null) - Number(b.retired !== null) || a.code.localeCompare(b.code),
  );
}

import type { Quantity } from '@furrowmark/domain';
import { acres, gal } from './amounts.ts';
import { later, type Stamp } from './calendar.ts';
import type { Writing } from './diary.ts';
import type { Farm } from './farm.ts';
import type { Ground } from './ground.ts';

/** One load of the sprayer or the drench rig: drawn, carried out, applied. */
export interface Load {
  readonly gallons: number;
  readonly from: Stamp;
  readonly to: Stamp;
  /** Ground, and how much of it where not all. */
  readonly on: readonly (Ground | { readonly ground: Ground; readonly acres: number })[];
  readonly method?: 'soilDrench' | 'foliar';
  readonly edibleParts?: 'present' | 'absent';
  /** When it was drawn; ten minutes before it goes out unless said. */
  readonly drawnAt?: Stamp;
  readonly with?: readonly { readonly lotId: string; readonly quantity: Quantity }[];
  readonly weather?: string;
  /** How the application came to be written down. */
  readonly written?: Writing;
}
export interface LoadWritten {
  readonly drawId: string;
  readonly drawnRecordId: string;
  readonly applicationId: string;
  readonly applicationRecordId: string;
}

/** Writes the draw and the application of one load. */
export function load(farm: Farm, batchId: string, code: string, it: Load): LoadWritten {
  const { diary, people, yard } = farm;
  const method = it.method ?? 'soilDrench';
  const equipmentId = method === 'foliar' ? yard.sprayer : yard.drenchRig;
  const drawId = diary.newId();
  const drawnAt = it.drawnAt ?? later(it.from, -10);
  const volume = gal(it.gallons);
  const performedBy = { performedBy: people.tobin };
  const drawnRecordId = diary.write(
    'batch.drawn',
    drawnAt,
    { drawId, batchId, volume, into: equipmentId },
    performedBy,
  );
  const applicationId = diary.newId();
  const targets = it.on.map((on) => ('ground' in on ? on : { ground: on, acres: on.acres }));
  const applicationRecordId = diary.write(
    'application.made',
    it.to,
    {
      applicationId,
      code,
      targets: targets.map(({ ground, acres: area }) => ({
        fieldId: ground.fieldId,
        ...(ground.plantingId === undefined ? {} : { plantingId: ground.plantingId }),
        area: acres(area),
      })),
      draws: [{ drawId }],
      ...(it.with === undefined ? {} : { tankMix: it.with }),
      startedAt: diary.instant(it.from),
      finishedAt: diary.instant(it.to),
      method,
      edibleParts: it.edibleParts ?? 'absent',
      equipmentId,
      applicator: people.tobin,
      weather: it.weather ?? 'overcast, wind 4 mph',
    },
    { ...performedBy, ...it.written },
  );
  return { drawId, drawnRecordId, applicationId, applicationRecordId };
}

import { asOf, dateOn, endOfDay, startOfDay, zonedText, type Application, type Season } from '@furrowmark/domain';
import { rightHanded, type Boundary } from './field-geometry.ts';

/** Tea on one field: one application as far as it went there. */
export interface AppliedThere {
  readonly applicationId: string;
  readonly code: string;
  readonly startedAt: string;
  readonly finishedAt: string;
  readonly method: string;
  readonly batches: readonly string[];
  readonly crops: readonly string[];
}

/** A field as an RFC 7946 feature; `geometry` null where no outline is recorded (section 3.2). */
export interface FieldFeature {
  readonly type: 'Feature';
  readonly id: string;
  readonly geometry: Boundary | null;
  readonly properties: {
    readonly code: string;
    readonly kind: string;
    readonly parentId: string | null;
    readonly landStatus: string;
    readonly lastProhibitedOn: string | null;
    readonly area: { readonly value: number; readonly unit: string } | null;
    readonly buffer: string | null;
    readonly ownedBy: string | null;
    readonly retiredOn: string | null;
    readonly applications: readonly AppliedThere[];
    readonly lastAppliedAt: string | null;
  };
}

export interface FieldMap {
  readonly type: 'FeatureCollection';
  readonly features: readonly FieldFeature[];
}

/**
 * The fields with what was applied to each, as GeoJSON (RFC 7946): WGS 84, longitude first, outlines counterclockwise.
 * Fields as they are at `now`; `from` and `to`, local days, both inclusive, bound the applications. No person is named.
 */
export function fieldMap(
  season: Season,
  { now }: { readonly now: number },
  { from, to }: { readonly from?: string | undefined; readonly to?: string | undefined } = {},
): FieldMap {
  const zone = season.timeZone;
  const start = from === undefined ? -Infinity : startOfDay(from, zone);
  const end = to === undefined ? Infinity : endOfDay(to, zone);
  const byField = new Map<string, AppliedThere[]>();
  const applications = season
    .applications()
    .filter(({ started }) => started.at >= start && started.at < end)
    .toSorted((a, b) => a.started.at - b.started.at);
  for (const application of applications) {
    for (const target of application.targets) {
      if (target.fieldId === undefined) continue;
      const there = byField.get(target.fieldId) ?? [];
      there.push(appliedThere(season, application, target));
      byField.set(target.fieldId, there);
    }
  }
  const features = season
    .fields()
    .toSorted((a, b) => a.registered.code.localeCompare(b.registered.code) || (a.id < b.id ? -1 : 1))
    .map((field): FieldFeature => {
      const { code, kind, parentId, landStatus, lastProhibitedOn, area, buffer, ownedBy, boundary } = asOf(field, now);
      const there = byField.get(field.id) ?? [];
      return {
        type: 'Feature',
        id: field.id,
        geometry: boundary === undefined ? null : rightHanded(boundary),
        properties: {
          code,
          kind,
          parentId: parentId ?? null,
          landStatus,
          lastProhibitedOn: lastProhibitedOn ?? null,
          area: area === undefined ? null : { value: area.value, unit: area.unit },
          buffer: buffer ?? null,
          ownedBy: ownedBy ?? null,
          retiredOn: field.retired === undefined ? null : dateOn(field.retired.at, zone),
          applications: there,
          lastAppliedAt: there.at(-1)?.startedAt ?? null,
        },
      };
    });
  return { type: 'FeatureCollection', features };
}

function appliedThere(season: Season, application: Application, target: Application['targets'][number]): AppliedThere {
  const batches = application.loads.flatMap(({ batchId }) =>
    batchId === null ? [] : [season.batch(batchId)?.code ?? batchId],
  );
  const crops = target.plantingIds.map((id) => season.planting(id)?.started.data.crop ?? id);
  return {
    applicationId: application.id,
    code: application.code,
    startedAt: zonedText(application.started.at, season.timeZone),
    finishedAt: zonedText(application.finished.at, season.timeZone),
    method: application.record.data.method,
    batches: [...new Set(batches)],
    crops: [...new Set(crops)],
  };
}

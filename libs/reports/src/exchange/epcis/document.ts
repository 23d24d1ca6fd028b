import { asOf, trace, utcText, type OpenSeason, type Season } from '@furrowmark/domain';
import { asFirstWritten } from '@furrowmark/rules';
import type { Given } from '../../telling/index.ts';
import type { Period } from '../../reports/parameters.ts';
import { isWithin } from '../../reports/parameters.ts';
import { applicationEvents } from './application-events.ts';
import { brewEvents } from './brew-events.ts';
import { takenBack } from './corrections.ts';
import { harvestEvents } from './harvest-events.ts';
import { harvestClass, lotClass, noKeys, operationPlace, ownUri, type Gs1Keys } from './identity.ts';
import { pileEvents } from './pile-events.ts';
import { stockEvents, teaEvents } from './stock-events.ts';
import type { Source } from './telling.ts';
import type { EpcisEvent, TraceEvent } from './types.ts';

/** The official context of EPCIS 2.0, and the namespace of the terms that it has no word for (docs/exchange.md). */
const context = [
  'https://ref.gs1.org/standards/epcis/2.0.0/epcis-context.jsonld',
  { furrowmark: 'urn:uuid:8f1d3c52-6a0e-4b5e-9c47-2d8b1f0e7a11#' },
] as const;

interface VocabularyElement {
  readonly id: string;
  readonly attributes: readonly { readonly id: string; readonly attribute: string }[];
}

/** A GS1 EPCIS 2.0 document in JSON-LD. */
export interface EpcisDocument {
  readonly '@context': typeof context;
  readonly type: 'EPCISDocument';
  readonly schemaVersion: '2.0';
  readonly creationDate: string;
  readonly epcisHeader: {
    readonly epcisMasterData: {
      readonly vocabularyList: readonly {
        readonly type: string;
        readonly vocabularyElementList: readonly VocabularyElement[];
      }[];
    };
  };
  readonly epcisBody: { readonly eventList: readonly EpcisEvent[] };
}

/** Everything that the records say about where things came from and went, in order of time. */
export function traceEvents(season: Season, keys: Gs1Keys = noKeys): TraceEvent[] {
  const source: Source = { season, keys };
  return [
    ...stockEvents(source),
    ...teaEvents(source),
    ...pileEvents(source),
    ...brewEvents(source),
    ...applicationEvents(source),
    ...harvestEvents(source),
  ].sort((a, b) => a.at - b.at || (a.event.eventID < b.event.eventID ? -1 : 1));
}

/** Which events a document has: those of a period, or those on the way of one lot. */
export type Wanted = { readonly period: Period } | { readonly lotId: string };

/** The traceability events as a document; events that were corrected since stand in it with their error declaration. */
export function epcisDocument(
  season: OpenSeason,
  { now }: Pick<Given, 'now'>,
  wanted: Wanted,
  keys: Gs1Keys = noKeys,
): EpcisDocument {
  const standing = traceEvents(season, keys);
  const wrong = takenBack(season, traceEvents(asFirstWritten(season), keys), standing);
  const belongs = chosen(season, wanted);
  const events = [...standing, ...wrong].filter(belongs).map(({ event }) => event);
  return {
    '@context': context,
    type: 'EPCISDocument',
    schemaVersion: '2.0',
    creationDate: utcText(now),
    epcisHeader: { epcisMasterData: { vocabularyList: names(season, keys, now, events) } },
    epcisBody: { eventList: events },
  };
}

function chosen(season: OpenSeason, wanted: Wanted): (event: TraceEvent) => boolean {
  if ('period' in wanted) return ({ at }) => isWithin(wanted.period, at);
  const root = { kind: 'lot', id: wanted.lotId } as const;
  const found = (['backward', 'forward'] as const).flatMap((direction) => trace(season, root, direction)?.nodes ?? []);
  const ids = new Set<string>([wanted.lotId, ...found.map(({ id }) => id)]);
  return ({ about }) => ids.has(about);
}

/** What people call the things and places that the events name. No people: those are nobody's business here. */
function names(season: Season, keys: Gs1Keys, now: number, events: readonly EpcisEvent[]) {
  const said = idsIn(events);
  const element = (id: string, attributes: Readonly<Record<string, string | undefined>>): VocabularyElement[] =>
    said.has(id)
      ? [
          {
            id,
            attributes: Object.entries(attributes).flatMap(([name, attribute]) =>
              attribute === undefined ? [] : [{ id: `furrowmark:${name}`, attribute }],
            ),
          },
        ]
      : [];
  const place = operationPlace(season, keys);
  const operation = season.operation === null ? undefined : asOf(season.operation, now);
  const places = [
    ...(place === null ? [] : element(place, { name: operation?.name, address: operation?.address })),
    ...season
      .fields()
      .flatMap(({ id, registered }) => element(ownUri(id), { code: registered.code, kind: registered.kind })),
    ...season.vessels().flatMap(({ id, registered }) => element(ownUri(id), { code: registered.code, kind: 'vessel' })),
  ];
  const classes = [
    ...season.lots().flatMap((lot) =>
      element(lotClass(season, keys, lot.id), {
        code: lot.code,
        name: season.material(lot.materialId)?.registered.name,
      }),
    ),
    ...season.batches().flatMap((batch) => element(ownUri(batch.id), { code: batch.code, kind: batch.kind })),
    ...season
      .sources()
      .flatMap(({ id, registered }) => element(ownUri(id), { code: registered.code, kind: registered.kind })),
    ...season.harvests().flatMap((harvest) =>
      element(harvestClass(season, keys, harvest.id), {
        code: harvest.code,
        name: harvest.plantingId === null ? undefined : season.planting(harvest.plantingId)?.started.data.crop,
      }),
    ),
  ];
  return [
    { type: 'urn:epcglobal:epcis:vtype:Location', vocabularyElementList: places },
    { type: 'urn:epcglobal:epcis:vtype:EPCClass', vocabularyElementList: classes },
  ].filter(({ vocabularyElementList }) => vocabularyElementList.length > 0);
}

/** The classes and places that events name. */
function idsIn(events: readonly EpcisEvent[]): ReadonlySet<string> {
  const found = new Set<string>();
  for (const event of events) {
    const lists =
      event.type === 'ObjectEvent' ? [event.quantityList] : [event.inputQuantityList ?? [], event.outputQuantityList];
    for (const { epcClass } of lists.flat()) found.add(epcClass);
    for (const place of [event.readPoint, event.bizLocation]) if (place !== undefined) found.add(place.id);
  }
  return found;
}

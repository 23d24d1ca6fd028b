import { asOf, decimal } from '@furrowmark/domain';
import { z } from 'zod';
import type { Block, Cell } from '../content.ts';
import { epcisDocument, traceEvents, ucumOf, type EpcisEvent, type QuantityElement } from '../exchange/epcis/index.ts';
import { brief, instantCell, litresText, nameOf, report, tell, unitName, type Telling } from '../telling/index.ts';
import type { Language } from '../words/index.ts';
import { gs1Parameters, keysOf } from './gs1-parameters.ts';
import { defineReport } from './kind.ts';
import { day, inOrder, isWithin, periodOf, type Period } from './parameters.ts';

const en = {
  title: 'Traceability events',
  intro:
    'Where lots, tea and harvests came from and went, event by event, as they stand in the records. The same is given as GS1 EPCIS 2.0 in JSON-LD (form jsonld), for programs of buyers and others.',
  step: 'Step',
  what: 'What went in or was moved',
  into: 'What came of it',
  place: 'Place',
  none: 'Nothing was moved, brewed, applied or harvested in this period.',
  steps: {
    receiving: 'received',
    stock_taking: 'in stock at the start',
    destroying: 'disposed of or lost',
    shipping: 'shipped',
    other: 'applied',
  },
  transformed: 'brewed or composted',
  harvested: 'harvested',
};
type Text = typeof en;
const es: Text = {
  title: 'Eventos de trazabilidad',
  intro:
    'De dónde vinieron y adónde fueron lotes, té y cosechas, evento por evento, según las anotaciones. Lo mismo se entrega como GS1 EPCIS 2.0 en JSON-LD (forma jsonld), para programas de compradores y otros.',
  step: 'Paso',
  what: 'Lo que entró o se movió',
  into: 'Lo que resultó',
  place: 'Lugar',
  none: 'Nada se movió, preparó, aplicó ni cosechó en este período.',
  steps: {
    receiving: 'recibido',
    stock_taking: 'en existencias al inicio',
    destroying: 'desechado o perdido',
    shipping: 'enviado',
    other: 'aplicado',
  },
  transformed: 'preparado o compostado',
  harvested: 'cosechado',
};
const texts: Readonly<Record<Language, Text>> = { en, es };

const isStep = (step: string): step is keyof Text['steps'] => Object.hasOwn(en.steps, step);

function stepOf(own: Text, event: EpcisEvent): string {
  if (event.type === 'TransformationEvent') return event.bizStep === 'other' ? own.steps.other : own.transformed;
  return isStep(event.bizStep) ? own.steps[event.bizStep] : own.harvested;
}

/** The name of a thing from its URI; without keys of GS1 every URI holds the thing's own id. */
const named = (telling: Telling, uri: string): string => {
  const id = uri.replace(/^urn:uuid:/, '');
  const { operation } = telling.season;
  return operation?.id === id ? asOf(operation, telling.now).name : nameOf(telling, id);
};

/** An amount as people write it: tea, which EPCIS has in litres, in the operation's own unit. */
function amountText(telling: Telling, quantity: number, uom: string | undefined): string {
  if (uom === 'LTR') return litresText(telling, decimal(quantity));
  const unit = uom === undefined ? undefined : ucumOf(uom);
  return `${brief(quantity, 3)}${unit === undefined ? '' : ` ${unitName(unit)}`}`;
}

const listed = (telling: Telling, elements: readonly QuantityElement[]): string =>
  elements
    .map(({ epcClass, quantity, uom }) =>
      [named(telling, epcClass), ...(quantity === undefined ? [] : [amountText(telling, quantity, uom)])].join(' '),
    )
    .join('; ');

function eventRows(telling: Telling, time: Period): Cell[][] {
  const own = texts[telling.language];
  return traceEvents(telling.season)
    .filter(({ at }) => isWithin(time, at))
    .map(({ at, event }): Cell[] => {
      const [inputs, outputs] =
        event.type === 'TransformationEvent'
          ? [event.inputQuantityList ?? [], event.outputQuantityList]
          : [event.quantityList, []];
      const place = event.readPoint?.id;
      return [
        instantCell(telling, at),
        { text: stepOf(own, event), value: event.bizStep },
        { text: listed(telling, inputs) || '–' },
        { text: listed(telling, outputs) || '–' },
        { text: place === undefined ? '–' : named(telling, place) },
      ];
    });
}

/** Every event on the way from the supplier's lot to the shipment; as linked data, GS1 EPCIS 2.0. */
export const traceabilityEvents = defineReport({
  kind: 'traceability-events',
  title: { en: en.title, es: es.title },
  parameters: inOrder(z.strictObject({ from: day.optional(), to: day.optional(), ...gs1Parameters })),
  content(season, parameters, given) {
    const telling = tell(season, given);
    const own = texts[telling.language];
    const time = periodOf(telling, parameters);
    const blocks: Block[] = [
      { kind: 'paragraph', text: own.intro },
      {
        kind: 'table',
        name: 'events',
        caption: '',
        empty: own.none,
        columns: [
          { key: 'time', label: telling.words.time(telling.zone), type: 'instant' },
          { key: 'step', label: own.step, type: 'text' },
          { key: 'what', label: own.what, type: 'text' },
          { key: 'into', label: own.into, type: 'text' },
          { key: 'place', label: own.place, type: 'text' },
        ],
        rows: eventRows(telling, time),
      },
    ];
    const { from, to } = time;
    return report(telling, { kind: 'traceability-events', title: own.title, period: { from, to } }, blocks);
  },
  linkedData(season, parameters, given) {
    const time = periodOf({ zone: season.timeZone, now: given.now }, parameters);
    return epcisDocument(season, given, { period: time }, keysOf(parameters));
  },
});

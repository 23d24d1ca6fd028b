import type { LogRecord } from '@furrowmark/domain';
import {
  areas,
  durations,
  flows,
  lengths,
  massesAndVolumes,
  organisms,
  readings,
  speeds,
  temperatures,
  volumes,
} from '../units.ts';
import {
  day,
  edibleParts,
  member,
  one,
  quantity,
  text,
  yesNoUnknown,
  type Member,
  type ThingKind,
} from '../register/members.ts';

/** Something that happens with a thing that is there already, and what is written of it. */
export interface Happening {
  readonly type: LogRecord['type'];
  readonly members: readonly Member[];
  /** The member with the id of what begins with it: a harvest, a sample. */
  readonly begins?: string;
  /** The record names one of its own things instead of the page's: a load, not the batch. */
  readonly alone?: true;
  /** Puts what was written into the shape of the record, where that is not flat. */
  readonly shape?: (data: Readonly<Record<string, unknown>>) => Readonly<Record<string, unknown>>;
}

/** What things are told of. `office`: of none in particular. */
export type Subject =
  | 'vessel'
  | 'source'
  | 'instrument'
  | 'equipment'
  | 'material'
  | 'field'
  | 'batch'
  | 'person'
  | 'pile'
  | 'recipe'
  | 'recipeInUse'
  | 'office';

const said = (each: Member, label: string): Member => ({ ...each, label });
const thing = (name: string, of: ThingKind, label: string, optional?: true): Member =>
  said(member(name, { kind: 'thing', of }, optional), label);
const rows = (name: string, of: readonly Member[], needs: string): Member =>
  member(name, { kind: 'rows', of, needs }, true);

const cleaning: readonly Member[] = [
  text('method'),
  member(
    'parts',
    { kind: 'several', of: ['tank', 'lid', 'diffusers', 'airLine', 'bags', 'hoses', 'pump', 'nozzles'] },
    true,
  ),
  member('rinsed', { kind: 'flag' }),
  thing('lotId', 'cleaner', 'cleanerLot', true),
  text('strength', true),
  member('contactMinutes', { kind: 'count' }, true),
];
const results = rows(
  'results',
  [
    one('analyte', ['E. coli', 'enterococci', 'Salmonella', 'fecal coliforms']),
    member('value', { kind: 'quantity', units: organisms, qualified: true }, true),
  ],
  'value',
);
const period = [day('from'), day('until', true)];

/** Every happening, by what it is told of; the usual one first. */
export const happenings: Readonly<Record<Subject, readonly Happening[]>> = {
  vessel: [{ type: 'vessel.cleaned', members: cleaning }],
  equipment: [
    { type: 'equipment.cleaned', members: cleaning },
    {
      type: 'equipment.calibrated',
      members: [
        member('nozzles', { kind: 'count' }, true),
        quantity('flow', flows, true),
        quantity('speed', speeds, true),
        quantity('swath', lengths, true),
      ],
    },
    { type: 'equipment.used', members: [text('what'), text('where', true), one('prohibited', yesNoUnknown)] },
  ],
  instrument: [
    {
      type: 'instrument.calibrated',
      members: [text('standard'), quantity('readingBefore', readings, true), quantity('readingAfter', readings, true)],
    },
    {
      type: 'instrument.checked',
      members: [text('standard'), quantity('reading', readings), quantity('expected', readings)],
    },
  ],
  source: [
    {
      type: 'source.tested',
      members: [
        member('sampledAt', { kind: 'moment' }),
        text('laboratory', true),
        said(text('method', true), 'labMethod'),
        results,
      ],
    },
    { type: 'source.documented', members: [one('covers', ['utilityReport', 'treatment', 'assessment']), ...period] },
    {
      type: 'source.delivered',
      begins: 'deliveryId',
      members: [text('hauler'), text('previousCargo', true), quantity('volume', volumes), text('loadCode', true)],
    },
  ],
  material: [
    {
      type: 'material.approved',
      members: [
        one('by', ['certifier', 'reviewBody', 'operation']),
        text('reference'),
        ...period,
        text('restriction', true),
      ],
    },
    {
      type: 'material.withdrawn',
      members: [one('by', ['certifier', 'reviewBody', 'operation']), text('reference'), ...period],
    },
    { type: 'material.documented', members: [one('covers', ['treatment', 'analysis', 'label']), ...period] },
  ],
  field: [
    {
      type: 'planting.started',
      begins: 'plantingId',
      members: [text('crop'), one('ediblePart', edibleParts), text('plantedOn', true), text('produceRule', true)],
    },
    {
      type: 'harvest.made',
      begins: 'harvestId',
      members: [
        text('code'),
        thing('plantingId', 'planting', 'plantingId', true),
        said(quantity('quantity', massesAndVolumes), 'harvested'),
        one('soldAs', ['organic', 'transition', 'conventional', 'ownUse']),
      ],
    },
    {
      type: 'harvest.shipped',
      alone: true,
      members: [
        thing('harvestId', 'harvest', 'harvestId'),
        said(quantity('quantity', massesAndVolumes), 'shipped'),
        text('to'),
        said(text('reference'), 'paper'),
      ],
    },
    {
      type: 'planting.ended',
      alone: true,
      members: [thing('plantingId', 'planting', 'plantingId'), said(text('reason', true), 'why')],
    },
    {
      type: 'field.exposed',
      members: [text('substance'), one('how', ['applied', 'drift']), quantity('area', areas, true)],
    },
  ],
  batch: [
    {
      type: 'draw.ended',
      alone: true,
      members: [
        thing('drawId', 'load', 'drawId'),
        said(quantity('volume', volumes), 'rest'),
        one('fate', ['dumped', 'putBack', 'carriedOver']),
        { ...text('where', true), when: ['fate', 'dumped'] },
        { ...thing('intoBatchId', 'batch', 'intoBatchId', true), when: ['fate', 'carriedOver'] },
      ],
    },
    { type: 'batch.sampled', begins: 'sampleId', members: [text('takenFrom')] },
    {
      type: 'batch.analysed',
      members: [thing('sampleId', 'sample', 'sampleId'), text('laboratory'), results],
    },
    {
      type: 'tea.supplied',
      members: [
        member('to', { kind: 'party' }),
        quantity('volume', volumes),
        one('statementGiven', yesNoUnknown),
        one('sold', yesNoUnknown),
      ],
    },
  ],
  person: [{ type: 'person.trained', members: [text('topic'), said(text('by'), 'trainer')] }],
  pile: [
    {
      type: 'pile.measured',
      members: [rows('temperatures', [said(quantity('value', temperatures), 'degrees'), text('spot', true)], 'value')],
    },
    { type: 'pile.turned', members: [] },
    {
      type: 'pile.added',
      members: [thing('lotId', 'lot', 'lotId'), said(quantity('quantity', massesAndVolumes), 'putIn')],
    },
    {
      type: 'pile.finished',
      begins: 'lotId',
      members: [
        said(text('code'), 'lotCode'),
        thing('materialId', 'material', 'materialId'),
        said(quantity('quantity', massesAndVolumes), 'lotQuantity'),
        day('curedFrom', true),
      ],
    },
  ],
  recipe: [
    {
      type: 'recipe.published',
      members: [
        text('code'),
        said(one('kind', ['aeratedTea', 'extract', 'stillTea']), 'teaKind'),
        quantity('basisVolume', volumes),
        rows(
          'ingredients',
          [
            thing('materialId', 'material', 'materialId'),
            quantity('amount', massesAndVolumes),
            said(quantity('from', massesAndVolumes, true), 'least'),
            said(quantity('to', massesAndVolumes, true), 'most'),
          ],
          'amount',
        ),
        quantity('brewFor', durations, true),
        text('notes', true),
      ],
    },
  ],
  recipeInUse: [{ type: 'recipe.retired', members: [said(text('reason'), 'why')] }],
  office: [
    {
      type: 'certifier.wrote',
      members: [
        text('reference'),
        said(one('kind', ['ruling', 'request', 'noncompliance', 'condition']), 'letterKind'),
        said(text('text'), 'letterText'),
        day('dueOn', true),
      ],
    },
    {
      type: 'certifier.notified',
      members: [thing('about', 'place', 'aboutWhat'), said(text('how'), 'told')],
      shape: ({ about, ...rest }) => ({ about: [about], ...rest }),
    },
    {
      type: 'inspection.held',
      begins: 'inspectionId',
      members: [said(text('by'), 'inspector'), text('scope'), text('outcome', true)],
    },
    {
      type: 'tea.received',
      begins: 'batchId',
      members: [said(member('from', { kind: 'party' }), 'supplierOfTea'), text('code'), quantity('volume', volumes)],
    },
    {
      type: 'pile.started',
      begins: 'pileId',
      members: [
        text('code'),
        said(one('method', ['windrow', 'staticAerated', 'inVessel', 'vermicompost', 'passive']), 'pileMethod'),
        rows(
          'inputs',
          [thing('lotId', 'lot', 'lotId'), said(quantity('quantity', massesAndVolumes), 'putIn')],
          'quantity',
        ),
        member('carbonToNitrogen', { kind: 'count' }, true),
      ],
    },
    {
      type: 'operation.revised',
      members: [
        text('certifier', true),
        text('number', true),
        said(day('from', true), 'certifiedFrom'),
        text('scope', true),
        text('address', true),
        quantity('elevation', lengths, true),
        text('farmStatus', true),
      ],
      shape: ({ certifier, number, from, scope, ...rest }) => ({
        ...rest,
        ...(certifier === undefined ? {} : { certificate: { certifier, number, from, scope } }),
      }),
    },
  ],
};

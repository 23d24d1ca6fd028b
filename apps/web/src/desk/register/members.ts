import { areas, massesAndVolumes, volumes } from '../units.ts';

/** How a member of a record is written. */
export type Control =
  /** `moment`: day and time on the farm's clock; `count`: a number without a unit; `party`: somebody outside, by name; `outline`: a
   * field's boundary. */
  | { readonly kind: 'text' | 'date' | 'flag' | 'moment' | 'count' | 'party' | 'outline' }
  | { readonly kind: 'one' | 'several'; readonly of: readonly string[] }
  /** Something that is registered: the form is told which there are. */
  | { readonly kind: 'thing'; readonly of: ThingKind }
  | {
      readonly kind: 'quantity';
      readonly units: readonly (readonly [string, string])[];
      /** A laboratory's or meter's: may be below or above what it can tell. */
      readonly qualified?: true;
    }
  /** Several of the same, one below the other; a row without the member it needs is none. */
  | { readonly kind: 'rows'; readonly of: readonly Member[]; readonly needs: string };

/** What a form lets pick from. */
export type ThingKind = 'planting' | 'harvest' | 'lot' | 'cleaner' | 'material' | 'sample' | 'load' | 'batch' | 'place';

export interface Member {
  readonly name: string;
  readonly control: Control;
  readonly optional?: true;
  /** What the form calls it, where the member's own name does not say enough. */
  readonly label?: string;
  /** Asked only while another member says this: where it was dumped, of what was dumped. */
  readonly when?: readonly [name: string, choice: string];
}

/** A kind of thing that is registered, and what is written of it. */
export interface Register {
  readonly type: RegisterType;
  /** The member that holds the thing's id. */
  readonly id: string;
  readonly members: readonly Member[];
  /** It can change later, and go out of use: its `.revised` and `.retired`. A lot and a planting cannot. */
  readonly changes: boolean;
}

export const registerTypes = [
  'source.registered',
  'vessel.registered',
  'instrument.registered',
  'equipment.registered',
  'measure.registered',
  'material.registered',
  'field.registered',
  'lot.received',
  'planting.started',
] as const;
export type RegisterType = (typeof registerTypes)[number];
export const isRegisterType = (type: string): type is RegisterType => registerTypes.some((each) => each === type);

export const text = (name: string, optional?: true): Member => member(name, { kind: 'text' }, optional);
export const day = (name: string, optional?: true): Member => member(name, { kind: 'date' }, optional);
export const one = (name: string, of: readonly string[], optional?: true): Member =>
  member(name, { kind: 'one', of }, optional);
export const quantity = (name: string, units: readonly (readonly [string, string])[], optional?: true): Member =>
  member(name, { kind: 'quantity', units }, optional);
export const member = (name: string, control: Control, optional?: true): Member => ({
  ...{ name, control },
  ...(optional === undefined ? {} : { optional }),
});

const yesNo = ['yes', 'no'];
export const yesNoUnknown = ['yes', 'no', 'unknown'];
const instrumentKinds = ['opticalProbe', 'membraneProbe', 'strip', 'dropKit', 'thermometer', 'scale'];
const measured = ['dissolvedOxygen', 'temperature', 'chlorine', 'pH', 'conductivity', 'volume', 'mass'];
const equipmentKinds = [
  'sprayer',
  'injector',
  'drench',
  'spreader',
  'blower',
  'pump',
  'filter',
  'bag',
  'hose',
  'nurseTank',
];
const materialKinds = [
  ...['compost', 'vermicompost', 'mineral', 'extract', 'biological'],
  ...['nutrient', 'antifoam', 'neutralizer', 'sanitizer', 'other'],
];
export const edibleParts = [
  ...['root', 'leaf', 'stem', 'fruitOnGround', 'fruitAbove'],
  ...['tree', 'grain', 'seedForSprouts', 'notForFood'],
];

/** Every register, by the type of the record that begins a thing. */
export const registers: Readonly<Record<RegisterType, Register>> = {
  'source.registered': {
    ...{ type: 'source.registered', id: 'sourceId', changes: true },
    members: [
      text('code'),
      one('kind', ['municipal', 'well', 'surface', 'rain', 'hauled']),
      one('disinfectant', ['unknown', 'none', 'chlorine', 'chloramine']),
    ],
  },
  'vessel.registered': {
    ...{ type: 'vessel.registered', id: 'vesselId', changes: true },
    members: [
      text('code'),
      quantity('totalVolume', volumes),
      quantity('workingVolume', volumes),
      one('previousContents', ['none', 'food', 'unknown', 'other']),
      text('ownership', true),
    ],
  },
  'instrument.registered': {
    ...{ type: 'instrument.registered', id: 'instrumentId', changes: true },
    members: [
      text('code'),
      one('kind', instrumentKinds),
      member('measures', { kind: 'several', of: measured }),
      quantity('validFor', [['d', 'd']], true),
    ],
  },
  'equipment.registered': {
    ...{ type: 'equipment.registered', id: 'equipmentId', changes: true },
    members: [text('code'), one('kind', equipmentKinds)],
  },
  'measure.registered': {
    ...{ type: 'measure.registered', id: 'measureId', changes: true },
    members: [text('name'), quantity('equals', massesAndVolumes), day('weighedOn')],
  },
  'material.registered': {
    ...{ type: 'material.registered', id: 'materialId', changes: true },
    members: [
      text('code'),
      text('name'),
      text('otherName', true),
      text('supplier', true),
      one('kind', materialKinds),
      one('animalOrigin', yesNoUnknown),
      one('microbialFood', yesNo),
      one('harmsTea', yesNo, true),
    ],
  },
  'field.registered': {
    ...{ type: 'field.registered', id: 'fieldId', changes: true },
    members: [
      text('code'),
      one('kind', ['field', 'bed', 'block', 'tunnel', 'bench', 'trays']),
      quantity('area', areas, true),
      one('landStatus', ['organic', 'transition', 'conventional']),
      member('boundary', { kind: 'outline' }, true),
      day('lastProhibitedOn', true),
      text('buffer', true),
      text('ownedBy', true),
    ],
  },
  'lot.received': {
    ...{ type: 'lot.received', id: 'lotId', changes: false },
    members: [
      text('code'),
      text('supplierLot'),
      quantity('quantity', massesAndVolumes),
      day('expiresOn', true),
      member('openingStock', { kind: 'flag' }, true),
    ],
  },
  'planting.started': {
    ...{ type: 'planting.started', id: 'plantingId', changes: false },
    members: [text('crop'), one('ediblePart', edibleParts), text('plantedOn', true), text('produceRule', true)],
  },
};

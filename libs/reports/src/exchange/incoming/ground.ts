import { asOf, edibleParts, type OpenSeason } from '@furrowmark/domain';
import { filled, same, saysTheSame, type Around, type TableKind } from './kind.ts';
import type { Row } from './row.ts';

const land = {
  transitional: 'transition',
  'in transition': 'transition',
  certified: 'organic',
  organico: 'organic',
  transicion: 'transition',
  convencional: 'conventional',
} as const;

/** A field by the code that a row names: one that the file describes, else one that is registered. */
function fieldNamed({ season, described }: Around, row: Row, member: string): string | undefined {
  const name = row.text(member);
  if (name === undefined) return undefined;
  const found = described.get(name.toLowerCase()) ?? registeredField(season, name);
  return (
    found ??
    row.problem(member, `“${name}” is no registered field: register it first, or bring fields in before plantings`)
  );
}

export const registeredField = (season: OpenSeason, code: string): string | undefined =>
  season.fields().find((field) => field.retired === undefined && same(asOf(field, Infinity).code, code))?.id;

/** Fields, beds, tunnels, benches. Outlines come as GeoJSON. */
export const fields: TableKind = {
  as: 'fields',
  title: 'Fields',
  members: [
    {
      name: 'code',
      title: 'Field',
      needed: true,
      said: ['field name', 'field code', 'name', 'parcel', 'plot', 'campo', 'parcela', 'nombre'],
    },
    { name: 'kind', title: 'Kind', needed: false, said: ['type', 'tipo'] },
    { name: 'parent', title: 'Lies within', needed: false, said: ['parent', 'parent field', 'within', 'dentro de'] },
    { name: 'area', title: 'Area', needed: false, said: ['size', 'acres', 'hectares', 'superficie'] },
    { name: 'areaUnit', title: 'Unit of area', needed: false, said: ['unit', 'area unit', 'unidad'] },
    {
      name: 'landStatus',
      title: 'Land status',
      needed: true,
      said: ['status', 'certification', 'land', 'condicion', 'estado'],
    },
    {
      name: 'lastProhibitedOn',
      title: 'Last prohibited substance',
      needed: false,
      said: ['last prohibited', 'last prohibited use', 'ultima sustancia prohibida'],
    },
    { name: 'buffer', title: 'Buffer', needed: false, said: ['buffers', 'buffer zone', 'franja'] },
    { name: 'ownedBy', title: 'Owned by', needed: false, said: ['owner', 'landlord', 'propietario'] },
  ],
  key: (row) => row.text('code')?.toLowerCase(),
  make(row, around) {
    const { season, described } = around;
    const code = row.needed('code');
    const kind =
      row.choice('kind', ['field', 'bed', 'block', 'tunnel', 'bench', 'trays'], {
        campo: 'field',
        cama: 'bed',
        bloque: 'block',
      }) ?? 'field';
    const landStatus =
      row.needed('landStatus') === undefined
        ? undefined
        : row.choice('landStatus', ['organic', 'transition', 'conventional'], land);
    const parentId = fieldNamed(around, row, 'parent');
    const members = filled({
      code,
      kind,
      parentId,
      area: areaOf(row),
      landStatus,
      lastProhibitedOn: row.day('lastProhibitedOn'),
      buffer: row.text('buffer'),
      ownedBy: row.text('ownedBy'),
    });
    if (code === undefined || landStatus === undefined) return null;
    const fieldId = described.get(code.toLowerCase());
    const there = season.fields().find((field) => same(asOf(field, Infinity).code, code));
    if (there !== undefined) {
      if (saysTheSame(asOf(there, Infinity), members)) return { known: `field ${code}` };
      row.problem(
        'code',
        `a field ${code} is registered already and says something else: change it there, or give this one another code`,
      );
      return null;
    }
    if (parentId !== undefined && parentId === fieldId) return row.problem('parent', 'is the field itself') ?? null;
    return { wishes: [{ type: 'field.registered', data: { fieldId, ...members }, columns: { parentId: 'parent' } }] };
  },
};

/** A column called "Acres" says its unit itself. */
function areaOf(row: Row) {
  const header = row.column('area')?.trim() ?? '';
  return /^(acres|hectares|hect[aá]reas)$/i.test(header)
    ? row.quantity('area', ['area'], header.toLowerCase().startsWith('a') ? 'acres' : 'hectares')
    : row.quantity('area', ['area']);
}

/** What was planted where. */
export const plantings: TableKind = {
  as: 'plantings',
  title: 'Plantings',
  members: [
    { name: 'field', title: 'Field', needed: true, said: ['field code', 'bed', 'block', 'location', 'campo', 'lugar'] },
    { name: 'crop', title: 'Crop', needed: true, said: ['crop name', 'variety', 'plant', 'cultivo'] },
    { name: 'ediblePart', title: 'Edible part', needed: true, said: ['part', 'part eaten', 'parte comestible'] },
    {
      name: 'plantedOn',
      title: 'Planted on',
      needed: true,
      said: ['date', 'planted', 'planting date', 'year', 'fecha', 'sembrado'],
    },
    {
      name: 'produceRule',
      title: 'Standing under produce safety rules',
      needed: false,
      said: ['produce rule', 'produce safety'],
    },
  ],
  key: (row) => {
    const [field, crop, on] = [row.text('field'), row.text('crop'), row.text('plantedOn')];
    return field === undefined || crop === undefined ? undefined : [field, crop, on ?? ''].join(' | ').toLowerCase();
  },
  make(row, around) {
    const fieldId = row.needed('field') === undefined ? undefined : fieldNamed(around, row, 'field');
    const crop = row.needed('crop');
    const said = {
      root: 'root',
      'fruit on ground': 'fruitOnGround',
      'fruit above ground': 'fruitAbove',
      'not for food': 'notForFood',
      raiz: 'root',
      hoja: 'leaf',
      tallo: 'stem',
      grano: 'grain',
    } as const;
    const ediblePart = row.needed('ediblePart') === undefined ? undefined : row.choice('ediblePart', edibleParts, said);
    const year = row.needed('plantedOn');
    const plantedOn = year !== undefined && /^\d{4}$/.test(year) ? year : row.day('plantedOn');
    if (fieldId === undefined || crop === undefined || ediblePart === undefined || plantedOn === undefined) return null;
    const there = around.season
      .plantings()
      .find(
        ({ started }) =>
          started.data.fieldId === fieldId && same(started.data.crop, crop) && started.data.plantedOn === plantedOn,
      );
    if (there !== undefined) return { known: `${crop}, planted ${plantedOn}` };
    const plantingId = around.thingId(row, fieldId, crop, plantedOn);
    const data = filled({ plantingId, fieldId, crop, ediblePart, plantedOn, produceRule: row.text('produceRule') });
    return {
      wishes: [
        {
          type: 'planting.started',
          data,
          on: plantedOn.length === 4 ? `${plantedOn}-01-01` : plantedOn,
          columns: { fieldId: 'field' },
        },
      ],
    };
  },
};

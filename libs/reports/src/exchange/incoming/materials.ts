import { approvers, asOf, materialKinds } from '@furrowmark/domain';
import { filled, same, saysTheSame, type TableKind, type Wish } from './kind.ts';
import type { Row } from './row.ts';

/** An approval in the same row, where its columns are filled. */
function approval(row: Row, materialId: string): Wish[] {
  const by = row.choice('approvedBy', approvers, {
    'review body': 'reviewBody',
    'material review': 'reviewBody',
  });
  const [from, until] = [row.day('approvedFrom'), row.day('approvedUntil')];
  if (row.text('approvedBy') === undefined) {
    if (from !== undefined || until !== undefined) row.problem('approvedBy', 'is empty: say who approved it');
    return [];
  }
  if (row.text('approvedFrom') === undefined) row.problem('approvedFrom', 'is empty: say from when the approval holds');
  if (by === undefined || from === undefined) return [];
  const data = filled({ materialId, by, reference: row.text('approvalReference') ?? '', from, until });
  return [
    {
      type: 'material.approved',
      data,
      columns: { by: 'approvedBy', from: 'approvedFrom', until: 'approvedUntil' },
    },
  ];
}

/** Materials: the input list of the system plan. */
export const materials: TableKind = {
  as: 'materials',
  title: 'Materials',
  members: [
    { name: 'code', title: 'Code', needed: true, said: ['material code', 'short name', 'sku', 'codigo'] },
    {
      name: 'name',
      title: 'Name',
      needed: true,
      said: ['material', 'product', 'input', 'product name', 'nombre', 'producto', 'insumo'],
    },
    {
      name: 'otherName',
      title: 'Name in the crew’s other language',
      needed: false,
      said: ['spanish name', 'nombre en ingles', 'otro nombre'],
    },
    {
      name: 'supplier',
      title: 'Supplier',
      needed: false,
      said: ['vendor', 'manufacturer', 'source', 'proveedor', 'fabricante'],
    },
    { name: 'kind', title: 'Kind', needed: true, said: ['type', 'category', 'tipo', 'clase'] },
    {
      name: 'animalOrigin',
      title: 'Of animal origin',
      needed: true,
      said: ['animal', 'animal origin', 'origen animal'],
    },
    {
      name: 'microbialFood',
      title: 'Microbial food',
      needed: true,
      said: ['food', 'microbe food', 'alimento microbiano'],
    },
    { name: 'harmsTea', title: 'Harms tea', needed: false, said: ['kills microbes', 'dana el te'] },
    { name: 'approvedBy', title: 'Approved by', needed: false, said: ['approval', 'aprobado por'] },
    {
      name: 'approvalReference',
      title: 'Reference of the approval',
      needed: false,
      said: ['reference', 'approval no', 'referencia'],
    },
    {
      name: 'approvedFrom',
      title: 'Approved from',
      needed: false,
      said: ['approval date', 'approved on', 'aprobado desde'],
    },
    {
      name: 'approvedUntil',
      title: 'Approved until',
      needed: false,
      said: ['approval expires', 'approval ends', 'aprobado hasta'],
    },
  ],
  key: (row) => row.text('code')?.toLowerCase(),
  make(row, { season, thingId }) {
    const [code, name] = [row.needed('code'), row.needed('name')];
    const kind =
      row.needed('kind') === undefined
        ? undefined
        : row.choice('kind', materialKinds, {
            'worm compost': 'vermicompost',
            'worm castings': 'vermicompost',
            composta: 'compost',
          });
    const animalOrigin = row.needed('animalOrigin') === undefined ? undefined : row.yesNoUnknown('animalOrigin');
    const microbialFood = row.needed('microbialFood') === undefined ? undefined : row.yesNo('microbialFood');
    const said = { otherName: row.text('otherName'), supplier: row.text('supplier'), harmsTea: row.yesNo('harmsTea') };
    if (
      code === undefined ||
      name === undefined ||
      kind === undefined ||
      animalOrigin === undefined ||
      microbialFood === undefined
    )
      return null;
    const members = filled({ code, name, kind, animalOrigin, microbialFood, ...said });
    const there = season.materials().find(({ registered }) => same(registered.code, code));
    if (there !== undefined) {
      if (saysTheSame(asOf(there, Infinity), members)) return { known: `material ${code}` };
      row.problem(
        'code',
        `a material ${there.registered.code} is registered already and says something else: change it there, or give this one another code`,
      );
      return null;
    }
    const materialId = thingId(row, members);
    return {
      wishes: [{ type: 'material.registered', data: { materialId, ...members } }, ...approval(row, materialId)],
    };
  },
};

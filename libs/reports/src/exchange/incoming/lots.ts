import type { Material, OpenSeason } from '@furrowmark/domain';
import { filled, same, type TableKind } from './kind.ts';
import type { Row } from './row.ts';

/** The material that a row names, by code or name. */
export function materialNamed(season: OpenSeason, row: Row, member: string): Material | undefined {
  const name = row.needed(member);
  if (name === undefined) return undefined;
  const byCode = season.materials().filter(({ registered }) => same(registered.code, name));
  const found = byCode.length > 0 ? byCode : season.materials().filter(({ registered }) => same(registered.name, name));
  if (found.length > 1)
    return row.problem(member, `“${name}” is the name of ${found.length} materials: write the code`);
  return (
    found[0] ??
    row.problem(member, `“${name}” is no registered material: register it first, or bring materials in before lots`)
  );
}

/** Lots received: a delivery book, or the stock when the books are opened. */
export const lots: TableKind = {
  as: 'lots',
  title: 'Lots received',
  members: [
    {
      name: 'code',
      title: 'Lot code',
      needed: true,
      said: ['lot', 'lot no', 'lot number', 'own lot', 'lote', 'codigo', 'codigo de lote'],
    },
    {
      name: 'material',
      title: 'Material',
      needed: true,
      said: ['product', 'input', 'item', 'material code', 'producto', 'insumo'],
    },
    {
      name: 'supplierLot',
      title: 'Supplier’s lot',
      needed: false,
      said: ['supplier lot no', 'vendor lot', 'batch no', 'lote del proveedor'],
    },
    { name: 'quantity', title: 'Quantity', needed: true, said: ['amount', 'qty', 'received quantity', 'cantidad'] },
    { name: 'quantityUnit', title: 'Unit', needed: false, said: ['uom', 'units', 'unit of measure', 'unidad'] },
    {
      name: 'receivedOn',
      title: 'Received on',
      needed: true,
      said: ['date', 'received', 'date received', 'delivery date', 'fecha', 'recibido', 'fecha de recepcion'],
    },
    {
      name: 'expiresOn',
      title: 'Use by',
      needed: false,
      said: ['expires', 'expiry', 'expiry date', 'best before', 'use by date', 'vence', 'caducidad'],
    },
    { name: 'openingStock', title: 'Opening stock', needed: false, said: ['opening', 'existencia inicial'] },
  ],
  key: (row) => row.text('code')?.toLowerCase(),
  make(row, { season, thingId }) {
    const code = row.needed('code');
    const material = materialNamed(season, row, 'material');
    const quantity =
      row.text('quantity') === undefined
        ? row.problem('quantity', 'is empty')
        : row.quantity('quantity', ['mass', 'volume', 'count']);
    const receivedOn =
      row.text('receivedOn') === undefined ? row.problem('receivedOn', 'is empty') : row.day('receivedOn');
    const opening = row.yesNo('openingStock');
    const expiresOn = row.day('expiresOn');
    if (code === undefined || material === undefined || quantity === undefined || receivedOn === undefined) return null;
    const supplierLot = row.text('supplierLot') ?? '';
    const lotId = thingId(row, code, material.id, supplierLot, quantity, receivedOn);
    const there = season.lots().find((lot) => same(lot.code, code));
    if (there !== undefined) {
      if (there.id === lotId) return { known: `lot ${there.code}` };
      row.problem(
        'code',
        `a lot ${there.code} is recorded already: give this one a code of its own, or leave the row out`,
      );
      return null;
    }
    const data = filled({
      lotId,
      code,
      materialId: material.id,
      supplierLot,
      quantity,
      expiresOn,
      openingStock: opening === 'yes' ? true : undefined,
    });
    return { wishes: [{ type: 'lot.received', data, on: receivedOn, columns: { materialId: 'material' } }] };
  },
};

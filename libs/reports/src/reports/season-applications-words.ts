import type { Language } from '../words/index.ts';

const en = {
  title: 'Season application report',
  intro:
    'What was applied to each field, by the records of the operation. Volumes are of tea as drawn, without the water added in the sprayer; a rest that was dumped, put back or carried over is taken off.',
  date: 'Date',
  application: 'Application',
  batch: 'Batch',
  lots: 'Lots in it',
  volume: (unit: string) => `Volume, ${unit}`,
  area: (unit: string) => `Area, ${unit}`,
  rate: (unit: string) => `Rate, ${unit}`,
  method: 'Method',
  crop: 'Crop',
  applicator: 'Applicator',
  harvest: 'Days to harvest',
  none: 'Nothing was applied in this period.',
  noFields: 'No field is registered.',
  split: {
    area: 'Shares between fields are computed by area.',
    equal: 'Shares between fields are equal: neither volume nor area was recorded for each.',
  },
  gaps: (count: number) =>
    count === 1
      ? 'One of these lines has no volume; the total leaves it out.'
      : `${count} of these lines have no volume; the total leaves them out.`,
  field: (code: string, kind: string, status: string) => `${code} · ${kind}, ${status}`,
  kinds: { field: 'field', bed: 'bed', block: 'block', tunnel: 'tunnel', bench: 'bench', trays: 'trays' },
  land: { organic: 'organic', transition: 'in transition', conventional: 'conventional' },
  nobody: 'Applications that name no field',
  lotsWetted: 'wetted lots',
};
export type Text = typeof en;
const es: Text = {
  title: 'Informe de aplicaciones de la temporada',
  intro:
    'Lo que se aplicó a cada campo, según las anotaciones de la operación. Los volúmenes son de té tal como se extrajo, sin el agua añadida en el rociador; se descuenta el resto vertido, devuelto o pasado a otro.',
  date: 'Fecha',
  application: 'Aplicación',
  batch: 'Lote de té',
  lots: 'Lotes que lleva',
  volume: (unit) => `Volumen, ${unit}`,
  area: (unit) => `Superficie, ${unit}`,
  rate: (unit) => `Dosis, ${unit}`,
  method: 'Método',
  crop: 'Cultivo',
  applicator: 'Aplicador',
  harvest: 'Días a la cosecha',
  none: 'No se aplicó nada en este período.',
  noFields: 'No hay ningún campo registrado.',
  split: {
    area: 'El reparto entre campos está calculado por superficie.',
    equal: 'El reparto entre campos es a partes iguales: no se anotó volumen ni superficie de cada uno.',
  },
  gaps: (count) =>
    count === 1
      ? 'Uno de estos renglones no tiene volumen; el total no lo cuenta.'
      : `${count} de estos renglones no tienen volumen; el total no los cuenta.`,
  field: (code, kind, status) => `${code} · ${kind}, ${status}`,
  kinds: { field: 'campo', bed: 'cama', block: 'bloque', tunnel: 'túnel', bench: 'mesa', trays: 'bandejas' },
  land: { organic: 'orgánico', transition: 'en transición', conventional: 'convencional' },
  nobody: 'Aplicaciones que no nombran campo',
  lotsWetted: 'lotes humedecidos',
};
export const texts: Readonly<Record<Language, Text>> = { en, es };

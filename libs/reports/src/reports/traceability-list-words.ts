import type { Language } from '../words/index.ts';

/** Names of the columns in JSON, the same in every language. */
const keys = {
  harvesting: ['lot', 'commodity', 'quantity', 'unit', 'growingArea', 'harvestedOn', 'recipient', 'reference'],
  shipping: ['lot', 'commodity', 'quantity', 'unit', 'shippedOn', 'recipient', 'reference'],
  'growing-areas': ['growingArea', 'within', 'latitude', 'longitude', 'area', 'unit'],
};

const en = {
  title: 'Traceability list sheet',
  intro:
    'What the records hold of the key data elements of 21 CFR part 1, subpart S: harvests, shipments, and where the growing areas lie (21 CFR 1.1315(a)(5)). A dash stands where no record says it. Which foods the list covers, and which exemptions apply, is not decided here: ask the agency or an adviser.',
  harvestNotHeld:
    'What 21 CFR 1.1330 makes whoever first packs a food keep of its harvest, and no record here holds: its variety, the description of the farm’s location, the harvester’s business name and telephone, and where and when it was cooled. Give it along with the lot.',
  notHeld:
    'What 21 CFR 1.1340 also asks for at shipping, and no record here holds: the descriptions of the places shipped from and to, the source of the traceability lot code, and the kind of the reference document. It asks for them from initial packing on. Keep them beside this sheet.',
  none: 'Nothing in this period.',
  captions: {
    harvesting: 'Harvesting',
    shipping: 'Shipping',
    'growing-areas': 'Growing areas and their coordinates (WGS 84)',
  },
  columns: {
    harvesting: [
      'Harvest lot',
      'Commodity',
      'Quantity',
      'Unit',
      'Growing area',
      'Harvested on',
      'Immediate recipient',
      'Reference document',
    ],
    shipping: [
      'Harvest lot',
      'Commodity',
      'Quantity',
      'Unit',
      'Shipped on',
      'Immediate recipient',
      'Reference document',
    ],
    'growing-areas': ['Growing area', 'Lies within', 'Latitude', 'Longitude', 'Area', 'Unit'],
  },
  keys,
};
type Text = typeof en;
const es: Text = {
  title: 'Hoja de la lista de trazabilidad',
  intro:
    'Lo que las anotaciones tienen de los elementos clave de 21 CFR parte 1, subparte S: cosechas, envíos y dónde quedan las áreas de cultivo (21 CFR 1.1315(a)(5)). Hay una raya donde ninguna anotación lo dice. Qué alimentos abarca la lista y qué exenciones valen no se decide aquí: pregunte a la agencia o a un asesor.',
  harvestNotHeld:
    'Lo que 21 CFR 1.1330 hace guardar de la cosecha a quien empaca por primera vez, y ninguna anotación tiene aquí: su variedad, la descripción del lugar de la granja, el nombre comercial y el teléfono de quien cosechó, y dónde y cuándo se enfrió. Entréguelo junto con el lote.',
  notHeld:
    'Lo que 21 CFR 1.1340 pide además al enviar, y ninguna anotación tiene aquí: las descripciones de los lugares de salida y de destino, el origen del código de lote de trazabilidad y la clase del documento de referencia. Lo pide desde el primer empaque. Guárdelo junto a esta hoja.',
  none: 'Nada en este período.',
  captions: {
    harvesting: 'Cosecha',
    shipping: 'Envío',
    'growing-areas': 'Áreas de cultivo y sus coordenadas (WGS 84)',
  },
  columns: {
    harvesting: [
      'Lote de cosecha',
      'Producto',
      'Cantidad',
      'Unidad',
      'Área de cultivo',
      'Cosechado el',
      'Destinatario inmediato',
      'Documento de referencia',
    ],
    shipping: [
      'Lote de cosecha',
      'Producto',
      'Cantidad',
      'Unidad',
      'Enviado el',
      'Destinatario inmediato',
      'Documento de referencia',
    ],
    'growing-areas': ['Área de cultivo', 'Queda dentro de', 'Latitud', 'Longitud', 'Superficie', 'Unidad'],
  },
  keys,
};
export const texts: Readonly<Record<Language, Text>> = { en, es };

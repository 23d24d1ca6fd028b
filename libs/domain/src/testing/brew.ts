import { Book, idOf, litresOf, pounds } from './book.ts';

/** A book with the usual things registered: a source, a tank, compost and molasses with a lot each, a field. */
export function farm(): Book {
  const book = new Book();
  book.write('operation.described', '01 08:00', { name: 'Quillfen Growers', timeZone: 'UTC' });
  book.write('source.registered', '01 08:00', {
    sourceId: idOf('city water'),
    code: 'W1',
    kind: 'municipal',
    disinfectant: 'chlorine',
  });
  book.write('vessel.registered', '01 08:00', {
    vesselId: idOf('tote'),
    code: 'Tote 2',
    totalVolume: litresOf(1200),
    workingVolume: litresOf(1100),
    previousContents: 'none',
  });
  material(book, 'compost', 'compost', 'no');
  material(book, 'molasses', 'nutrient', 'yes');
  material(book, 'antifoam', 'antifoam', 'no');
  for (const name of ['compost', 'molasses', 'antifoam']) lot(book, name, 100);
  field(book, 'North 4');
  return book;
}

export function material(
  book: Book,
  name: string,
  kind: 'compost' | 'nutrient' | 'antifoam' | 'other',
  food: 'yes' | 'no',
) {
  return book.write('material.registered', '01 08:00', {
    materialId: idOf(`material ${name}`),
    code: name,
    name,
    kind,
    animalOrigin: 'no',
    microbialFood: food,
  });
}

export function lot(book: Book, name: string, quantity: number, at = '01 08:00') {
  return book.write('lot.received', at, {
    lotId: idOf(name),
    code: `${name} 26-1`,
    materialId: idOf(`material ${name}`),
    supplierLot: '7731',
    quantity: pounds(quantity),
  });
}

export function field(book: Book, code: string, parent?: string) {
  return book.write('field.registered', '01 08:00', {
    fieldId: idOf(code),
    code,
    kind: parent === undefined ? 'field' : 'bed',
    landStatus: 'organic',
    ...(parent === undefined ? {} : { parentId: idOf(parent) }),
  });
}

export function open(book: Book, batch: string, at: string) {
  return book.write('batch.opened', at, {
    batchId: idOf(batch),
    code: batch,
    kind: 'aeratedTea',
    vesselId: idOf('tote'),
  });
}

export function fill(book: Book, batch: string, at: string, litres: number) {
  return book.write('batch.filled', at, {
    batchId: idOf(batch),
    sourceId: idOf('city water'),
    volume: litresOf(litres),
  });
}

export const airOn = (book: Book, batch: string, at: string, extra = {}) =>
  book.write('batch.airStarted', at, { batchId: idOf(batch) }, extra);
export const airOff = (book: Book, batch: string, at: string, extra = {}) =>
  book.write('batch.airStopped', at, { batchId: idOf(batch) }, extra);

export function put(book: Book, batch: string, at: string, lotName: string, amount: number) {
  return book.write('batch.ingredientAdded', at, {
    batchId: idOf(batch),
    lotId: idOf(lotName),
    quantity: pounds(amount),
  });
}

export function draw(book: Book, batch: string, at: string, drawName: string, litres: number, keptAerated = false) {
  return book.write('batch.drawn', at, {
    drawId: idOf(drawName),
    batchId: idOf(batch),
    volume: litresOf(litres),
    keptAerated,
  });
}

export function endDraw(
  book: Book,
  at: string,
  drawName: string,
  litres: number,
  fate: 'dumped' | 'putBack' | 'carriedOver',
  into?: string,
) {
  return book.write('draw.ended', at, {
    drawId: idOf(drawName),
    volume: litresOf(litres),
    fate,
    ...(into === undefined ? {} : { intoBatchId: idOf(into) }),
  });
}

interface Loads {
  readonly draws?: readonly string[];
  readonly loads?: readonly { readonly batch: string; readonly litres: number; readonly drawnAt?: string }[];
  readonly on?: readonly object[];
}

/** An application of draws by name, or of loads recorded only in it, on North 4 where nothing else is said. */
export function apply(book: Book, name: string, from: string, to: string, { draws = [], loads = [], on }: Loads) {
  const at = (text: string) => `2026-06-${text.slice(0, 2)}T${text.slice(3)}:00Z`;
  return book.write('application.made', to, {
    applicationId: idOf(name),
    code: name,
    targets: (on ?? [{ fieldId: idOf('North 4') }]).map((target) => ({ ...target })),
    draws: [
      ...draws.map((each) => ({ drawId: idOf(each) })),
      ...loads.map((load) => ({
        batchId: idOf(load.batch),
        volume: litresOf(load.litres),
        ...(load.drawnAt === undefined ? {} : { drawnAt: at(load.drawnAt) }),
      })),
    ],
    startedAt: at(from),
    finishedAt: at(to),
    method: 'soilDrench',
    applicator: idOf('Ines'),
  });
}

/** The usual beginning: 1000 L in at 05:30, air on at 05:35, 10 lb of compost at 06:00, all on the 2nd. */
export function brew(book: Book, batch = 'T-14') {
  open(book, batch, '02 05:00');
  fill(book, batch, '02 05:30', 1000);
  airOn(book, batch, '02 05:35');
  put(book, batch, '02 06:00', 'compost', 10);
}

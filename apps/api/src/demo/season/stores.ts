import type { Quantity } from '@furrowmark/domain';
import { cubicYards, gal, grams, lb } from './amounts.ts';
import type { Day, Stamp } from './calendar.ts';
import type { Diary } from './diary.ts';

export type Stores = ReturnType<typeof stores>;

interface Goods {
  readonly code: string;
  readonly name: string;
  readonly kind:
    'compost' | 'vermicompost' | 'mineral' | 'nutrient' | 'antifoam' | 'neutralizer' | 'sanitizer' | 'other';
  readonly animal?: 'yes' | 'no';
  readonly food?: 'yes' | 'no';
  readonly harmsTea?: 'yes' | 'no';
  readonly supplier?: string;
  /** Last day of the certifier's approval, this year unless given; none: not an input to approve. */
  readonly approvedUntil?: string;
}

/** What the shed holds: materials with their approvals, the lots received, and the recipes. */
export function stores(diary: Diary) {
  const desk = { by: 'manager' } as const;
  const material = (it: Goods): string => {
    const materialId = diary.newId();
    diary.write(
      'material.registered',
      '04-06 10:30',
      {
        materialId,
        ...{ code: it.code, name: it.name, kind: it.kind },
        supplier: it.supplier ?? 'valley supply',
        animalOrigin: it.animal ?? 'no',
        microbialFood: it.food ?? 'no',
        harmsTea: it.harmsTea ?? 'no',
      },
      desk,
    );
    const reference = `input list ${diary.year}, line ${it.code}`;
    const from = diary.date('01-15');
    const until = it.approvedUntil ?? diary.date('12-31');
    diary.write('material.approved', '04-06 11:00', { materialId, by: 'certifier', reference, from, until }, desk);
    return materialId;
  };
  const worm = material({
    code: 'WC',
    name: 'worm compost',
    kind: 'vermicompost',
    animal: 'yes',
    supplier: 'own beds',
  });
  const leaf = material({ code: 'LC', name: 'leaf compost', kind: 'compost' });
  const own = material({ code: 'OC', name: 'own compost', kind: 'compost', animal: 'yes', supplier: 'own pile' });
  const molasses = material({ code: 'MO', name: 'molasses', kind: 'nutrient', food: 'yes' });
  const kelp = material({
    code: 'KE',
    name: 'kelp meal',
    kind: 'nutrient',
    food: 'yes',
    approvedUntil: diary.date('06-14'),
  });
  const fish = material({ code: 'FH', name: 'fish hydrolysate', kind: 'nutrient', animal: 'yes', food: 'yes' });
  const humic = material({ code: 'HA', name: 'humic acid', kind: 'other' });
  const basalt = material({ code: 'RD', name: 'rock dust', kind: 'mineral' });
  const vitaminC = material({ code: 'AA', name: 'ascorbic acid', kind: 'neutralizer' });
  const oil = material({ code: 'VO', name: 'vegetable oil', kind: 'antifoam' });
  const peroxide = material({ code: 'HP', name: 'hydrogen peroxide, 3 %', kind: 'sanitizer', harmsTea: 'yes' });
  const copper = material({ code: 'CS', name: 'copper soap', kind: 'other', harmsTea: 'yes' });
  const manure = material({
    code: 'HM',
    name: 'horse manure with straw',
    kind: 'other',
    animal: 'yes',
    supplier: 'own stable',
  });
  const leaves = material({ code: 'LV', name: 'leaves and wood chip', kind: 'other', supplier: 'own' });
  for (const materialId of [worm, own]) {
    const span = { from: diary.date('01-01'), until: diary.date('12-31') };
    diary.write('material.documented', '04-06 11:20', { materialId, covers: 'treatment', ...span }, desk);
  }

  const lot = (
    materialId: string,
    code: string,
    quantity: Quantity,
    received: Stamp,
    expiresOn: Day = '12-31',
    how: { openingStock?: boolean } = {},
  ): string => {
    const lotId = diary.newId();
    const supplierLot = `S-${code}`;
    const expires = diary.date(expiresOn, diary.year + 1);
    diary.write('lot.received', received, {
      lotId,
      code,
      materialId,
      supplierLot,
      quantity,
      expiresOn: expires,
      ...how,
    });
    return lotId;
  };
  const stock = { openingStock: true };
  const lots = {
    worm1: lot(worm, 'WC-1', lb(400), '04-06 12:00', '12-31', stock),
    worm2: lot(worm, 'WC-2', lb(700), '05-06 09:10'),
    leaf1: lot(leaf, 'LC-1', lb(300), '04-07 10:00'),
    molasses1: lot(molasses, 'MO-1', gal(55), '04-07 10:05'),
    kelp1: lot(kelp, 'KE-1', lb(60), '04-07 10:10'),
    kelp2: lot(kelp, 'KE-2', lb(60), '07-20 10:10'),
    fish1: lot(fish, 'FH-1', gal(15), '04-21 14:30'),
    humic1: lot(humic, 'HA-1', gal(1.8), '04-07 10:15'),
    humic2: lot(humic, 'HA-2', gal(5), '07-21 09:00'),
    basalt1: lot(basalt, 'RD-1', lb(150), '04-07 10:20'),
    vitaminC1: lot(vitaminC, 'AA-1', grams(2_000), '05-28 11:00'),
    oil1: lot(oil, 'VO-1', gal(2), '04-07 10:25'),
    peroxide1: lot(peroxide, 'HP-1', gal(30), '04-07 10:30'),
    copper1: lot(copper, 'CS-1', gal(2), '06-20 10:00'),
    manure1: lot(manure, 'HM-1', cubicYards(14), '04-06 12:30', '12-31', stock),
    leaves1: lot(leaves, 'LV-1', cubicYards(20), '04-06 12:35', '12-31', stock),
  };
  return { materials: { worm, leaf, own, molasses, kelp, fish, humic, basalt }, lots };
}

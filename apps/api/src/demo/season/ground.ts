import type { Diary } from './diary.ts';
import { acres } from './amounts.ts';
import type { Day } from './calendar.ts';

/** A piece of ground and what stands in it. */
export interface Ground {
  readonly fieldId: string;
  readonly acres: number;
  readonly plantingId?: string;
}

type Kind = 'field' | 'bed' | 'block' | 'tunnel';
type EdiblePart = 'root' | 'leaf' | 'fruitOnGround' | 'fruitAbove' | 'tree' | 'grain' | 'notForFood';

interface Plot {
  readonly code: string;
  readonly kind?: Kind;
  /** Feet east and north of the farm's south-west corner, then width and depth in feet. */
  readonly at: readonly [number, number, number, number];
  readonly in?: Ground;
  readonly land?: 'organic' | 'transition';
  readonly buffer?: string;
  readonly crop?: string;
  readonly part?: EdiblePart;
  readonly planted?: Day;
  readonly covered?: boolean;
}

const corner = { east: -74.21, north: 42.094 };
/** Length of a degree at 42.1° N on WGS 84, in feet (series of the meridian and of the parallel, from memory). */
const feetPerDegree = { east: 271_600, north: 364_400 };

function rectangle([east, north, width, depth]: Plot['at']) {
  const position = (x: number, y: number): [number, number] => [
    Number((corner.east + x / feetPerDegree.east).toFixed(6)),
    Number((corner.north + y / feetPerDegree.north).toFixed(6)),
  ];
  const ring = [
    position(east, north),
    position(east + width, north),
    position(east + width, north + depth),
    position(east, north + depth),
    position(east, north),
  ];
  return { type: 'Polygon' as const, coordinates: [ring] };
}

function plot(diary: Diary, it: Plot): Ground {
  const fieldId = diary.newId();
  const area = Number(((it.at[2] * it.at[3]) / 43_560).toFixed(2));
  diary.write(
    'field.registered',
    '04-06 09:00',
    {
      fieldId,
      code: it.code,
      kind: it.kind ?? 'field',
      ...(it.in === undefined ? {} : { parentId: it.in.fieldId }),
      area: acres(area),
      boundary: rectangle(it.at),
      landStatus: it.land ?? 'organic',
      ...(it.land === 'transition' ? { lastProhibitedOn: diary.date('08-20', diary.year - 2) } : {}),
      ...(it.buffer === undefined ? {} : { buffer: it.buffer }),
      ownedBy: 'own',
    },
    { by: 'manager' },
  );
  if (it.crop === undefined) return { fieldId, acres: area };
  const plantingId = diary.newId();
  const planted = it.planted ?? '04-10';
  diary.write(
    'planting.started',
    // What stood there before the books were opened is written in with the field.
    planted < '04-06' ? '04-06 09:05' : `${planted} 17:00`,
    {
      plantingId,
      fieldId,
      crop: it.crop,
      ediblePart: it.part ?? 'leaf',
      plantedOn: diary.date(planted),
      produceRule: it.covered === true ? 'covered' : 'notCovered',
    },
    { by: 'manager' },
  );
  return { fieldId, acres: area, plantingId };
}

export type Fields = ReturnType<typeof fields>;

/** Eight pieces of ground, four beds and a tunnel. */
export function fields(diary: Diary) {
  const longAcre = plot(diary, { code: 'Long Acre', at: [0, 1300, 760, 400], buffer: 'hedge, 30 ft north' });
  const bed = (n: number, crop: string, planted: Day): Ground =>
    plot(diary, {
      code: `Long Acre · bed ${n}`,
      kind: 'bed',
      at: [20, 1310 + n * 30, 218, 20],
      in: longAcre,
      crop,
      part: 'leaf',
      planted,
      covered: true,
    });
  return {
    north1: plot(diary, {
      ...{ code: 'North 1', at: [0, 0, 640, 422], crop: 'carrots', part: 'root', planted: '04-18', covered: true },
      buffer: 'track, 25 ft west',
    }),
    north2: plot(diary, {
      ...{ code: 'North 2', at: [660, 0, 530, 420], crop: 'winter squash', part: 'fruitOnGround', planted: '05-20' },
      buffer: 'road verge, 30 ft south',
    }),
    creek: plot(diary, {
      ...{ code: 'Creek', at: [0, 440, 480, 400], crop: 'sweet corn', part: 'grain', planted: '05-10' },
      buffer: 'creek bank, 50 ft left in grass',
    }),
    hill: plot(diary, {
      ...{ code: 'Hill', at: [500, 440, 400, 392], crop: 'strawberries', part: 'fruitOnGround', planted: '04-02' },
      covered: true,
    }),
    south1: plot(diary, {
      ...{ code: 'South 1', at: [920, 440, 500, 418], crop: 'tomatoes', part: 'fruitAbove', planted: '05-22' },
      covered: true,
    }),
    orchard: plot(diary, {
      ...{ code: 'Orchard', kind: 'block', at: [0, 860, 600, 400], crop: 'apples', part: 'tree', planted: '04-01' },
      buffer: 'neighbour sprays; windbreak, 40 ft east',
      covered: true,
    }),
    corner: plot(diary, {
      ...{
        code: 'Corner',
        at: [620, 860, 420, 300],
        crop: 'clover, green manure',
        part: 'notForFood',
        planted: '04-05',
      },
      land: 'transition',
    }),
    longAcre,
    bed1: bed(1, 'lettuce', '05-02'),
    bed2: bed(2, 'kale', '05-02'),
    bed3: bed(3, 'lettuce', '05-06'),
    bed4: bed(4, 'kale', '06-24'),
    tunnel: plot(diary, {
      ...{ code: 'Tunnel A', kind: 'tunnel', at: [1060, 860, 120, 30], crop: 'basil', part: 'leaf', planted: '05-15' },
      covered: true,
    }),
  };
}

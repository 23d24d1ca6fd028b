import { z } from 'zod';
import { measureId } from './ids.ts';

const UNITS = {
  volume:
    'L l mL ml dL cL uL hL kL m3 dm3 cm3 mm3 [gal_us] [qt_us] [pt_us] [gil_us] [foz_us] [cup_us] [tbs_us] [tsp_us] [gal_br] [qt_br] [pt_br] [foz_br] [cyd_i] [cft_i] [cin_i] [bu_us] [pk_us]',
  mass: 'g kg mg ug t [lb_av] [oz_av] [ston_av] [lton_av] [gr]',
  area: 'm2 cm2 km2 har ar [acr_us] [sft_i] [syd_i] 43560.[sft_i]',
  length: 'm cm mm km [in_i] [ft_i] [yd_i] [mi_i]',
  time: 's min h d wk mo a',
  temperature: 'Cel [degF] K',
  speed: '[mi_i]/h km/h m/s m/min [ft_i]/min [ft_i]/s',
  flow: '[gal_us]/min [gal_us]/h [foz_us]/min L/min L/h L/s mL/min mL/s m3/h',
  conductivity: 'mS/cm uS/cm dS/m S/m mS/m S/cm',
  massConcentration: 'mg/L ug/L g/L mg/l [ppm] [ppb]',
} as const;

export type UnitKind = keyof typeof UNITS | 'count' | 'countConcentration' | 'other';

const KIND_OF = new Map<string, UnitKind>();
for (const [kind, units] of Object.entries(UNITS))
  for (const unit of units.split(' ')) KIND_OF.set(unit, kind as UnitKind); // eslint-disable-line
for (const unit of ['1', '%', '[pH]']) KIND_OF.set(unit, 'other');

export function unitKind(unit: string): UnitKind | null {
  const known = KIND_OF.get(unit);
  if (known) return known;
  if (/^\{[!-z|~]+\}$/.test(unit)) return 'count';
  if (/^\{[!-z|~]+\}\/(?:\(\d+\.(?:mL|g)\)|mL|dL|L|g)$/.test(unit)) return 'countConcentration';
  return null;
}

const shape = {
  value: z.number(),
  unit: z.string(),
  measureId: measureId.optional(),
};
const lab = {
  ...shape,
  qualifier: z.enum(['<', '>', 'notDetected', 'between']).optional(),
  high: z.number().optional(),
};
void lab;

const written = (kinds: readonly UnitKind[] | null, least: number | null) =>
  z.strictObject(shape).superRefine((q, ctx) => {
    check(q, kinds, least, ctx);
  });
const read = (kinds: readonly UnitKind[] | null, least: number | null) =>
  z.strictObject(lab).superRefine((q, ctx) => {
    check(q, kinds, least, ctx);
  });

function check(
  q: { value: number; unit: string; measureId?: string | undefined },
  kinds: readonly UnitKind[] | null,
  least: number | null,
  ctx: z.core.$RefinementCtx,
): void {
  const kind = unitKind(q.unit);
  if (kind === null || (kinds && !kinds.includes(kind)))
    ctx.addIssue({ code: 'custom', path: ['unit'], message: 'is not a unit' });
  if (least !== null && q.value < least)
    ctx.addIssue({ code: 'custom', path: ['value'], message: 'must not be negative' });
}

export const volume = written(['volume', 'count'], 0);
export const stock = written(['mass', 'volume', 'count'], 0);
export const area = written(['area'], 0);
/** What a household measure is worth. */
export const worth = written(['mass', 'volume', 'count'], 0);
export const length = written(['length'], 0);
export const elevation = written(['length'], null);
export const duration = written(['time'], 0);
export const speed = written(['speed'], 0);
export const flow = written(['flow'], 0);
export const temperature = read(['temperature'], null);
export const conductivity = read(['conductivity'], 0);
export const concentration = read(['massConcentration'], 0);
export const reading = read(null, null);

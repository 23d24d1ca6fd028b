import type { Data, FormContext } from './form.ts';

/**
 * Until when the machine is busy on this ground at least: area over calibrated speed times swath, from the start. Turns
 * and filling are not counted. null where an area, speed or swath is not known.
 */
export function takesUntil(data: Data, { engine, season }: FormContext): number | null {
  const { equipmentId, startedAt, targets } = data;
  if (typeof equipmentId !== 'string' || typeof startedAt !== 'string' || !Array.isArray(targets)) return null;
  const { numberIn, instantOf } = engine.domain;
  const { speed, swath } = season.naming('equipment.calibrated', equipmentId).at(-1)?.data ?? {};
  const [metresASecond, metres] = [speed && numberIn(speed, 'm/s'), swath && numberIn(swath, 'm')];
  if (!metresASecond || !metres) return null;
  let seconds = 0;
  for (const target of targets) {
    const fieldId: unknown = Reflect.get(Object(target), 'fieldId');
    const field = typeof fieldId === 'string' ? season.field(fieldId) : undefined;
    const area = areaOf(Reflect.get(Object(target), 'area')) ?? field?.registered.area;
    const squareMetres = area === undefined ? null : numberIn(area, 'm2');
    if (squareMetres === null) return null;
    seconds += squareMetres / (metresASecond * metres);
  }
  return instantOf(startedAt) + seconds * 1000;
}

function areaOf(value: unknown): { readonly value: number; readonly unit: string } | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const [amount, unit]: unknown[] = [Reflect.get(value, 'value'), Reflect.get(value, 'unit')];
  return typeof amount === 'number' && typeof unit === 'string' ? { value: amount, unit } : undefined;
}

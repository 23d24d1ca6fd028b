import type { Judgement } from './judgement.ts';
import { saidBy } from './judgement.ts';
import { say } from '../words/index.ts';
import type { Limits } from './limits.ts';
import type { ParameterNote } from './parameter.ts';

/** A rule's parameters, with what stands behind each. */
export type Notes = ReadonlyMap<string, ParameterNote & { readonly byDefault: number }>;

/**
 * The figures that the regulation or guideline itself stands for: those it names as it names them, those it leaves open as
 * adopted, but no stricter than built in.
 */
export function asAsked<P extends object>(limits: Limits<P>, notes: Notes): Limits<P> {
  const asked: Record<string, number> = {};
  const adopted = new Map<string, unknown>(Object.entries(limits.parameters));
  for (const [name, { byDefault, regulation, open }] of notes) {
    const value = adopted.get(name);
    if (regulation !== undefined) asked[name] = byDefault;
    else if (open !== undefined && typeof value === 'number')
      asked[name] = open === 'atLeast' ? Math.min(value, byDefault) : Math.max(value, byDefault);
  }
  return { ...limits, parameters: { ...limits.parameters, ...asked } };
}

/** Whether an adoption asks for more than the regulation or guideline itself. */
export function isStricter<P extends object>(limits: Limits<P>, notes: Notes): boolean {
  const adopted = new Map<string, unknown>(Object.entries(limits.parameters));
  return [...notes].some(([name, { byDefault, regulation, open }]) => {
    const value = adopted.get(name);
    const asks = regulation ?? open;
    if (asks === undefined || typeof value !== 'number') return false;
    return asks === 'atLeast' ? value > byDefault : value < byDefault;
  });
}

/**
 * A broken limit that the operation set stricter than asked is its own: it is worded as practice, or as what the system plan
 * promises. Where what is asked is broken too, that is what is said. `asked` is the judgement by the figures asked.
 */
export function ownOrAsked(judgement: Judgement, asked: Judgement | null): Judgement {
  if (asked?.outcome === 'broken') {
    const said = asked.message;
    return { ...asked, message: () => say('common.then', { first: saidBy(said), second: say('common.stricter') }) };
  }
  const { limits, message, own = message } = judgement;
  return {
    ...judgement,
    asked: asked?.outcome ?? null,
    limits: { ...limits, basis: limits.inSystemPlan ? 'ownPlan' : 'practice' },
    message: () => say('common.then', { first: saidBy(own), second: say('common.stricterOwn') }),
  };
}

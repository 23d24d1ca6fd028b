import { localText, spanAt, timeOn } from '../calendar/index.ts';
import { decimalIn, type Decimal } from '../quantity/index.ts';
import { figure } from './figures.ts';
import type { PlanFacts } from './planFacts.ts';
import { brewHours, schedule, type Schedule, type Slot } from './planSchedule.ts';

/** Litres as people of this operation write volumes. */
export function volumeWords(litres: Decimal, unit: string): string {
  const names: Record<string, string> = {
    '[gal_us]': 'gal',
    L: 'L',
    '[gal_br]': 'imperial gal',
    m3: 'm³',
    '[qt_us]': 'qt',
  };
  const name = names[unit];
  const value = name === undefined ? null : decimalIn({ value: litres, unit: 'L' }, unit);
  return value === null || name === undefined
    ? `${figure(litres.toNumber(), 4)} L`
    : `${figure(value.toNumber(), 4)} ${name}`;
}

/** What does not fit, and what would make it fit. */
export function shortfallWords(facts: PlanFacts, need: Decimal, found: Schedule, hold: number, unit: string): string[] {
  if (!found.rest.gt(0)) return [];
  const to = facts.spray.to;
  const remedies = [
    windowRemedy(facts, need, hold),
    vesselRemedy(facts, need, found, hold, unit),
    rateRemedy(need, found),
  ].filter((r) => r !== null);
  const limited = sprayerLimit(facts, need, unit);
  return [
    `${volumeWords(found.rest, unit)} of ${volumeWords(need, unit)} cannot be brewed and sprayed by ${localText(to, facts.timeZone)}.` +
      (limited ?? '') +
      (remedies.length === 0 ? '' : ` It would fit ${remedies.join(', or ')}.`),
  ];
}

function windowRemedy(facts: PlanFacts, need: Decimal, hold: number): string | null {
  const open = schedule(facts, need, hold, Infinity);
  const last = open.rest.gt(0) ? null : Math.max(...open.slots.map((s) => s.applyBy));
  return last === null || last <= facts.spray.to
    ? null
    : `if spraying could go on until ${localText(last, facts.timeZone)}`;
}

function vesselRemedy(facts: PlanFacts, need: Decimal, found: Schedule, hold: number, unit: string): string | null {
  const further = {
    vesselId: '',
    code: '',
    workingVolume: { value: found.rest, unit: 'L' },
    freeFrom: null,
  };
  const tried = schedule({ ...facts, vessels: [...facts.vessels, further] }, need, hold, facts.spray.to);
  return tried.rest.gt(0) ? null : `with a further vessel of ${volumeWords(found.rest, unit)} working volume`;
}

/** What was planned fits; so does less of it, by the same vessels in the same order until nothing is left. */
function rateRemedy(need: Decimal, found: Schedule): string | null {
  const planned = need.minus(found.rest);
  // Rounded down, so that the lowered rate really fits.
  const percent = planned.div(need).times(100).floor();
  return percent.lt(1) ? null : `at ${percent.toFixed()} % of the rate`;
}

function sprayerLimit(facts: PlanFacts, need: Decimal, unit: string): string | null {
  const perHour = facts.sprayer.perHour === null ? null : decimalIn(facts.sprayer.perHour, 'L/h');
  const most = perHour?.times(facts.spray.to - facts.spray.from).div(3_600_000);
  return most === undefined || most.gte(need)
    ? null
    : ` The sprayer puts out at most ${volumeWords(most, unit)} in this window.`;
}

/** Steps that fall into the night, and a clock change on the way: said, since people must be there. */
export function clockWords(facts: PlanFacts, slot: Slot): string[] {
  const steps: [string, number][] = [
    ['fill', slot.fillFrom],
    ['ingredients', slot.ingredientsAt],
    ['air off', slot.airOffAt],
  ];
  const atNight = steps.filter(([, at]) => {
    const hour = Number(timeOn(at, facts.timeZone).slice(0, 2));
    return hour >= 22 || hour < 5;
  });
  const offset = (at: number) => spanAt(at, facts.timeZone).offset;
  return [
    ...(atNight.length === 0
      ? []
      : [
          `Night work at ${slot.vessel.code}: ${atNight.map(([step, at]) => `${step} ${localText(at, facts.timeZone)}`).join(', ')}.`,
        ]),
    ...(offset(slot.fillFrom) === offset(slot.applyBy)
      ? []
      : [
          `The clocks change while ${slot.vessel.code} brews: the plan counts true hours, so go by the times with their offset from UTC.`,
        ]),
  ];
}

/** What the plan took for granted about water, brew time and sprayer. */
export function assumptionWords(facts: PlanFacts): string[] {
  const { limits } = facts;
  const brew = brewHours(facts);
  const water = {
    none: [],
    chlorine: [],
    unknown: [
      `What the water is disinfected with is not known: ${figure(limits.preAerationMinutes)} min of air before the ingredients are planned as for chlorine. Air alone does not answer chloramine.`,
    ],
    chloramine: [
      'Air alone does not answer chloramine: treat the water, then measure total chlorine before the ingredients go in. The certifier decides about neutralizers.',
    ],
  }[facts.disinfectant];
  return [
    ...water,
    ...(brew < limits.brewLeastHours
      ? [`A brew of ${figure(brew)} h is shorter than your limit of ${figure(limits.brewLeastHours)} h.`]
      : []),
    ...(brew > limits.brewMostHours
      ? [`A brew of ${figure(brew)} h is longer than your limit of ${figure(limits.brewMostHours)} h.`]
      : []),
    ...(facts.recipe === null ? ['No recipe was named: ingredients are not planned.'] : []),
    ...(facts.sprayer.perHour === null
      ? [
          'How much the sprayer puts out in an hour is not known: the plan takes it that each batch is sprayed within its hold time.',
        ]
      : []),
    ...(facts.sprayer.tank === null ? ['The sprayer’s tank is not known: loads are not counted.'] : []),
    ...facts.vessels
      .filter((v) => v.workingVolume === null)
      .map((v) => `${v.code} has no working volume registered, so it is left out.`),
    ...facts.vessels
      .filter((v) => v.workingVolume !== null && decimalIn(v.workingVolume, 'L') === null)
      .map((v) => `${v.code} has its working volume in a household measure that is not registered, so it is left out.`),
  ];
}

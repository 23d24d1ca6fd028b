import type { Rule } from './engine/rule.ts';
import { airContinuous } from './rules/air-continuous.ts';
import { areaPossible } from './rules/area-possible.ts';
import { brewMaximum } from './rules/brew-maximum.ts';
import { brewMinimum } from './rules/brew-minimum.ts';
import { chloramineHandled } from './rules/chloramine-handled.ts';
import { chlorineDissipated } from './rules/chlorine-dissipated.ts';
import { fillLevel } from './rules/fill-level.ts';
import { harvestOrganic } from './rules/harvest-organic.ts';
import { holdMaximum } from './rules/hold-maximum.ts';
import { inputApproved } from './rules/input-approved.ts';
import { inputInDate } from './rules/input-in-date.ts';
import { inputNotHeld } from './rules/input-not-held.ts';
import { inputRecalled } from './rules/input-recalled.ts';
import { instrumentCalibrated } from './rules/instrument-calibrated.ts';
import { lotBalance } from './rules/lot-balance.ts';
import { oxygenChecked } from './rules/oxygen-checked.ts';
import { oxygenMinimum } from './rules/oxygen-minimum.ts';
import { oxygenPossible } from './rules/oxygen-possible.ts';
import { recordTimely } from './rules/record-timely.ts';
import { sourceTested } from './rules/source-tested.ts';
import { vesselClean } from './rules/vessel-clean.ts';
import { volumeBalance } from './rules/volume-balance.ts';

/** Every rule there is, in the order in which outcomes are listed: water, brew, use, inputs, stock, tank, ground, records. */
export const catalogue: readonly Rule[] = [
  chlorineDissipated,
  chloramineHandled,
  sourceTested,
  brewMinimum,
  brewMaximum,
  holdMaximum,
  airContinuous,
  oxygenMinimum,
  oxygenChecked,
  oxygenPossible,
  inputApproved,
  inputInDate,
  inputNotHeld,
  inputRecalled,
  lotBalance,
  fillLevel,
  volumeBalance,
  vesselClean,
  instrumentCalibrated,
  areaPossible,
  harvestOrganic,
  recordTimely,
];

export const ruleById = (id: string): Rule | undefined => catalogue.find((rule) => rule.id === id);

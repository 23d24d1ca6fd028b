import type { Rule } from './engine/rule.ts';
import { additiveTested } from './rules/additive-tested.ts';
import { airContinuous } from './rules/air-continuous.ts';
import { areaPossible } from './rules/area-possible.ts';
import { brewMaximum } from './rules/brew-maximum.ts';
import { brewMinimum } from './rules/brew-minimum.ts';
import { certifierDue } from './rules/certifier-due.ts';
import { chloramineHandled } from './rules/chloramine-handled.ts';
import { chlorineDissipated } from './rules/chlorine-dissipated.ts';
import { compostOrganic } from './rules/compost-organic.ts';
import { compostProduce } from './rules/compost-produce.ts';
import { contactAllowed } from './rules/contact-allowed.ts';
import { dilutionWater } from './rules/dilution-water.ts';
import { equipmentCalibrated } from './rules/equipment-calibrated.ts';
import { equipmentClean } from './rules/equipment-clean.ts';
import { fieldLocated } from './rules/field-located.ts';
import { fillLevel } from './rules/fill-level.ts';
import { harvestInterval } from './rules/harvest-interval.ts';
import { harvestOrganic } from './rules/harvest-organic.ts';
import { holdMaximum } from './rules/hold-maximum.ts';
import { inputApproved } from './rules/input-approved.ts';
import { inputInDate } from './rules/input-in-date.ts';
import { inputNotHeld } from './rules/input-not-held.ts';
import { inputRecalled } from './rules/input-recalled.ts';
import { instrumentCalibrated } from './rules/instrument-calibrated.ts';
import { instrumentDrift } from './rules/instrument-drift.ts';
import { lotBalance } from './rules/lot-balance.ts';
import { notifyCertifier } from './rules/notify-certifier.ts';
import { odourSound } from './rules/odour-sound.ts';
import { oxygenChecked } from './rules/oxygen-checked.ts';
import { oxygenMinimum } from './rules/oxygen-minimum.ts';
import { oxygenPossible } from './rules/oxygen-possible.ts';
import { personTrained } from './rules/person-trained.ts';
import { recipeFollowed } from './rules/recipe-followed.ts';
import { recordComplete } from './rules/record-complete.ts';
import { recordConsistent } from './rules/record-consistent.ts';
import { recordTimely } from './rules/record-timely.ts';
import { referenceKnown } from './rules/reference-known.ts';
import { ruleBookAdopted } from './rules/rule-book-adopted.ts';
import { sourceSuitable } from './rules/source-suitable.ts';
import { sourceTested } from './rules/source-tested.ts';
import { tankMix } from './rules/tank-mix.ts';
import { teaSupplied } from './rules/tea-supplied.ts';
import { temperatureRange } from './rules/temperature-range.ts';
import { topupWater } from './rules/topup-water.ts';
import { treatmentStatus } from './rules/treatment-status.ts';
import { vesselClean } from './rules/vessel-clean.ts';
import { vesselHistory } from './rules/vessel-history.ts';
import { volumeBalance } from './rules/volume-balance.ts';

/** Every rule there is, in the order in which outcomes are listed: water, brew, use, inputs, ground, tools, records. */
export const catalogue: readonly Rule[] = [
  chlorineDissipated,
  chloramineHandled,
  topupWater,
  sourceTested,
  sourceSuitable,
  recipeFollowed,
  brewMinimum,
  brewMaximum,
  airContinuous,
  oxygenMinimum,
  oxygenChecked,
  oxygenPossible,
  temperatureRange,
  odourSound,
  holdMaximum,
  inputApproved,
  inputInDate,
  inputNotHeld,
  inputRecalled,
  lotBalance,
  compostOrganic,
  compostProduce,
  treatmentStatus,
  additiveTested,
  contactAllowed,
  harvestInterval,
  harvestOrganic,
  dilutionWater,
  tankMix,
  areaPossible,
  fieldLocated,
  equipmentClean,
  equipmentCalibrated,
  fillLevel,
  volumeBalance,
  vesselClean,
  vesselHistory,
  instrumentCalibrated,
  instrumentDrift,
  teaSupplied,
  personTrained,
  notifyCertifier,
  certifierDue,
  recordTimely,
  recordComplete,
  recordConsistent,
  referenceKnown,
  ruleBookAdopted,
];

const byId: ReadonlyMap<string, Rule> = new Map(catalogue.map((rule) => [rule.id, rule]));
export const ruleById = (id: string): Rule | undefined => byId.get(id);

export { AlertChoices, alertChoice, told, type AlertChoice, type KeptChoice } from './choices.ts';
export { Alerts } from './alerts.ts';

import { trials } from './trials.mjs';

const placeOf = ({ path }) => trials.findIndex((pattern) => new RegExp(pattern).test(path));

/** Runs the trials in the order of their list. */
export default class TrialsInOrder {
  sort(tests) {
    return [...tests].sort((a, b) => placeOf(a) - placeOf(b));
  }

  cacheResults() {}
}

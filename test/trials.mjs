/**
 * Tests that take long: whole machines that are killed, filled, cut off and brought back, tampered databases, every screen in
 * every look, thousands of bad requests. `npm run trials` runs them, `npm test` everything else, `.ci/run` both. The longest
 * first (`trials-in-order.mjs`), so that none is left running alone at the end.
 */
export const trials = [
  ...['web-desk', 'web-looks', 'faults', 'web-keyboard', 'web-large-text', 'web-hands', 'restore', 'web-alerts'],
  ...['web-offline', 'web-speed', 'fuzz', 'report-jobs-crash', 'web-week-off', 'tamper-database', 'bench', 'web-print'],
  ...['replicas', 'point-in-time', 'silent-line', 'replica', 'upgrade-interrupted', 'tamper-owner', 'cut-anywhere'],
  ...['tamper-random', 'web-people'],
].map((name) => `/test/${name}\\.test\\.ts$`);

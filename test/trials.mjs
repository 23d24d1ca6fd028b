/**
 * Tests that take long: whole machines that are killed, filled and brought back, every screen in every look, thousands of
 * bad requests. `npm run trials` runs them, `npm test` everything else, `.ci/run` both.
 */
export const trials = [
  ...['web-desk', 'web-looks', 'web-alerts', 'web-speed'],
  ...['faults', 'fuzz', 'restore', 'replicas', 'point-in-time', 'report-jobs-crash', 'tamper-random'],
].map((name) => `/test/${name}\\.test\\.ts$`);

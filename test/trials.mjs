/**
 * Tests that take long: whole machines that are killed, filled, cut off and brought back, tampered databases, every screen in
 * every look, thousands of bad requests. `npm run trials` runs them, `npm test` everything else, `.ci/run` both.
 */
export const trials = [
  ...['web-desk', 'web-looks', 'web-alerts', 'web-speed', 'web-offline', 'web-hands', 'web-keyboard'],
  ...['web-large-text', 'web-print', 'web-week-off'],
  ...['faults', 'fuzz', 'restore', 'replicas', 'point-in-time', 'report-jobs-crash', 'replica'],
  ...[
    'upgrade-interrupted',
    'silent-line',
    'cut-anywhere',
    'tamper-database',
    'tamper-owner',
    'tamper-random',
    'bench',
  ],
].map((name) => `/test/${name}\\.test\\.ts$`);

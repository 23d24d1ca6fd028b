// Native ES modules, TypeScript through swc with decorator metadata; workspaces resolve to their sources.
export default {
  testEnvironment: 'node',
  // A machine busy with browsers and databases is slow, not wrong.
  testTimeout: 60_000,
  testEnvironmentOptions: { customExportConditions: ['source', 'node', 'node-addons'] },
  roots: ['<rootDir>/apps', '<rootDir>/libs', '<rootDir>/migrations', '<rootDir>/test'],
  testMatch: ['**/*.test.ts', '**/*.test.tsx'],
  testPathIgnorePatterns: ['/node_modules/', '/dist/', '/data/', '/out/'],
  modulePathIgnorePatterns: ['/dist/', '<rootDir>/data/', '<rootDir>/out/'],
  extensionsToTreatAsEsm: ['.ts', '.tsx'],
  transform: { '^.+\\.ts$': compiled({ tsx: false }), '^.+\\.tsx$': compiled({ tsx: true }) },
};

function compiled({ tsx }) {
  return [
    '@swc/jest',
    {
      jsc: {
        target: 'es2024',
        parser: { syntax: 'typescript', decorators: true, tsx },
        transform: { legacyDecorator: true, decoratorMetadata: true, react: { runtime: 'automatic' } },
        // JSON is imported `with { type: 'json' }`, and Node wants the words kept.
        experimental: { keepImportAttributes: true },
      },
      module: { type: 'es6' },
    },
  ];
}

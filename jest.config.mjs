// Native ES modules, TypeScript through swc with decorator metadata; workspaces resolve to their sources.
export default {
  testEnvironment: 'node',
  testEnvironmentOptions: { customExportConditions: ['source', 'node', 'node-addons'] },
  roots: ['<rootDir>/apps', '<rootDir>/libs', '<rootDir>/migrations', '<rootDir>/test'],
  testMatch: ['**/*.test.ts', '**/*.test.tsx'],
  testPathIgnorePatterns: ['/node_modules/', '/dist/', '/data/', '/out/'],
  modulePathIgnorePatterns: ['/dist/', '<rootDir>/data/', '<rootDir>/out/'],
  extensionsToTreatAsEsm: ['.ts', '.tsx'],
  transform: {
    '^.+\\.tsx?$': [
      '@swc/jest',
      {
        jsc: {
          target: 'es2024',
          parser: { syntax: 'typescript', decorators: true, tsx: false },
          transform: { legacyDecorator: true, decoratorMetadata: true },
        },
        module: { type: 'es6' },
      },
    ],
  },
};

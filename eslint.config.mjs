import noUnsanitized from 'eslint-plugin-no-unsanitized';
import regexp from 'eslint-plugin-regexp';
import security from 'eslint-plugin-security';
import tseslint from 'typescript-eslint';

export default tseslint.config(
  { ignores: ['**/dist/**', 'data/**', 'out/**', '**/node_modules/**'] },
  ...tseslint.configs.strict,
  noUnsanitized.configs.recommended,
  security.configs.recommended,
  {
    plugins: { regexp },
    rules: {
      // Finds patterns whose time can grow faster than what they are given, by analysis; the one it replaces goes by looks.
      'regexp/no-super-linear-backtracking': 'error',
      'security/detect-unsafe-regex': 'off',
      // docs/security.md says why these three are off.
      'security/detect-object-injection': 'off',
      'security/detect-non-literal-fs-filename': 'off',
      'security/detect-possible-timing-attacks': 'off',
    },
  },
  {
    // Tests choose their own patterns and texts.
    files: ['**/*.test.ts', '**/*.test.tsx', 'test/**'],
    rules: { 'security/detect-non-literal-regexp': 'off', 'regexp/no-super-linear-backtracking': 'off' },
  },
  {
    // Patterns made of the program's own constants: a decimal mark, the words of a message.
    files: [
      ...['libs/reports/src/exchange/incoming/cells.ts', 'libs/rules/src/due-in.ts'],
      'libs/reports/src/words/sentences.ts',
    ],
    rules: { 'security/detect-non-literal-regexp': 'off' },
  },
  {
    // Imported by a name that the program makes itself: the database's for this system, the builder of the web app.
    files: ['apps/api/src/database/postgres-binaries.ts', 'test/web/browser.ts'],
    rules: { 'no-unsanitized/method': 'off' },
  },
  {
    files: ['**/*.ts', '**/*.tsx'],
    rules: {
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-non-null-assertion': 'error',
      // A cast is an unchecked claim. Allowed: `as const`, and at the parse boundaries marked with a reason.
      '@typescript-eslint/consistent-type-assertions': ['error', { assertionStyle: 'never' }],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      '@typescript-eslint/no-extraneous-class': 'off',
      '@typescript-eslint/consistent-type-imports': 'off',
      eqeqeq: 'error',
    },
  },
);

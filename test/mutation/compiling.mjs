import { createRequire } from 'node:module';

// Required, not imported: the compiler is a package of CommonJS.
const { transformSync } = createRequire(import.meta.url)('@swc/core');
const options = {
  configFile: false,
  swcrc: false,
  module: { type: 'es6' },
  jsc: { target: 'es2024', parser: { syntax: 'typescript' }, experimental: { keepImportAttributes: true } },
};

/** TypeScript as JavaScript. */
export const compiled = (text) => transformSync(text, options).code;

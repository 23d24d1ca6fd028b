// Runs the TypeScript sources directly: compiles each .ts file with swc as it is imported, decorators
// and their metadata included (Nest injects by them), and resolves workspace packages by the `source` condition.
import { transformSync } from '@swc/core';
import { readFileSync } from 'node:fs';
import { registerHooks } from 'node:module';
import { fileURLToPath } from 'node:url';

registerHooks({
  resolve(specifier, context, next) {
    return next(specifier, { ...context, conditions: ['source', ...context.conditions] });
  },
  load(url, context, next) {
    if (!url.startsWith('file:') || !url.endsWith('.ts')) return next(url, context);
    const filename = fileURLToPath(url);
    const { code } = transformSync(readFileSync(filename, 'utf8'), {
      filename,
      configFile: false,
      swcrc: false,
      sourceMaps: 'inline',
      module: { type: 'es6' },
      jsc: {
        target: 'es2024',
        parser: { syntax: 'typescript', decorators: true },
        transform: { legacyDecorator: true, decoratorMetadata: true },
      },
    });
    return { format: 'module', source: code, shortCircuit: true };
  },
});

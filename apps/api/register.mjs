// Runs the TypeScript sources directly: compiles each .ts file with swc as it is imported, decorators
// and their metadata included (Nest injects by them), and resolves workspace packages by the `source` condition.
// What was compiled is kept beside the dependencies, so that the next start neither compiles nor loads the compiler, and
// its source map beside that: read when an error is told, not before (all of them are 30 MB of memory).
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { createRequire, registerHooks, SourceMap } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const require = createRequire(import.meta.url);
const kept = fileURLToPath(new URL('../../node_modules/.cache/furrowmark', import.meta.url));
const options = {
  configFile: false,
  swcrc: false,
  sourceMaps: true,
  module: { type: 'es6' },
  jsc: {
    target: 'es2024',
    parser: { syntax: 'typescript', decorators: true },
    transform: { legacyDecorator: true, decoratorMetadata: true },
  },
};
const compiler = `${require('@swc/core/package.json').version} ${JSON.stringify(options)}`;

let writable = true;
try {
  mkdirSync(kept, { recursive: true });
} catch {
  writable = false; // A read-only installation compiles each time.
}

registerHooks({
  resolve(specifier, context, next) {
    return next(specifier, { ...context, conditions: ['source', ...context.conditions] });
  },
  load(url, context, next) {
    if (!url.startsWith('file:') || !url.endsWith('.ts')) return next(url, context);
    return { format: 'module', source: compiled(fileURLToPath(url)), shortCircuit: true };
  },
});

/** The file as JavaScript: as it was kept, where the text and the compiler are still those; else compiled and kept. */
function compiled(filename) {
  const text = readFileSync(filename, 'utf8');
  const made = `// ${sha256(`${compiler}\n${text}`)}\n`;
  const place = placeOf(filename);
  const found = readOrNothing(place);
  if (found.startsWith(made)) return found.slice(made.length);
  const { code, map } = require('@swc/core').transformSync(text, { ...options, filename });
  if (writable) keep(`${place}.map`, map);
  if (writable) keep(place, made + code);
  if (!writable) maps.set(filename, new SourceMap(JSON.parse(map)));
  return code;
}

/** One place per source file, so that what is kept does not grow with each edit. */
const placeOf = (filename) => join(kept, `${sha256(filename)}.js`);

/** Source maps by source file, read when they are first asked for; null where there is none. */
const maps = new Map();

function mapOf(filename) {
  if (!maps.has(filename)) {
    const text = readOrNothing(`${placeOf(filename)}.map`);
    maps.set(filename, text === '' ? null : new SourceMap(JSON.parse(text)));
  }
  return maps.get(filename);
}

/** A call as V8 writes it, the place in our own files as it stands in the source. */
const inSource = (call) =>
  call.replace(/(file:\/\/[^\s():]+\.ts):(\d+):(\d+)/, (place, url, line, column) => {
    try {
      const { lineNumber, columnNumber } = mapOf(fileURLToPath(url))?.findOrigin(Number(line), Number(column)) ?? {};
      return lineNumber === undefined ? place : `${url}:${lineNumber}:${columnNumber}`;
    } catch {
      return place;
    }
  });

const named = Error.prototype.toString;
Error.prepareStackTrace = (error, calls) =>
  [named.call(error), ...calls.map((call) => `    at ${inSource(String(call))}`)].join('\n');

/** Written beside its place and moved there: of two starts at once neither reads a half of what the other writes. */
function keep(place, content) {
  try {
    writeFileSync(`${place}.${process.pid}`, content);
    renameSync(`${place}.${process.pid}`, place);
  } catch {
    writable = false;
  }
}

function readOrNothing(path) {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return '';
  }
}

function sha256(text) {
  return createHash('sha256').update(text).digest('hex');
}

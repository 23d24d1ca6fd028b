import { createHash } from 'node:crypto';
import { createTransformer } from '@swc/jest';

/** The compiler of the tests, with one piece of one file replaced: no file on disk is touched. */
const mutant = JSON.parse(process.env.MUTANT ?? 'null');

const mutated = (source, path) =>
  mutant !== null && path === mutant.path
    ? source.slice(0, mutant.start) + mutant.text + source.slice(mutant.end)
    : source;

export default {
  createTransformer(options) {
    const swc = createTransformer(options);
    return {
      ...swc,
      process: (source, path, more) => swc.process(mutated(source, path), path, more),
      processAsync: (source, path, more) => swc.processAsync(mutated(source, path), path, more),
      getCacheKey: (source, path, more) =>
        createHash('sha256')
          .update(swc.getCacheKey(mutated(source, path), path, more))
          .update(mutated(source, path))
          .digest('hex'),
    };
  },
};

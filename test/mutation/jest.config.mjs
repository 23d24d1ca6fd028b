import base from '../../jest.config.mjs';

const [, options] = base.transform['^.+\\.ts$'];

export default {
  ...base,
  rootDir: new URL('../..', import.meta.url).pathname,
  roots: ['<rootDir>/libs'],
  transform: { '^.+\\.ts$': ['<rootDir>/test/mutation/transform.mjs', options] },
};

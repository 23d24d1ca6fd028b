import { describe, expect, it } from '@jest/globals';
import { catalogue } from '@furrowmark/rules';
import { ruleTitle } from './rules.ts';

describe('the rules in Spanish', () => {
  it.each(catalogue.map(({ id, title }) => [id, title]))('%s has a title of its own', (id, title) => {
    expect(ruleTitle(id, title, 'es')).not.toBe(title);
    expect(ruleTitle(id, title, 'en')).toBe(title);
  });
});

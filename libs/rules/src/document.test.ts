import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from '@jest/globals';
import { catalogue, rulesDocument } from './index.ts';

const page = new URL('../../../docs/rules.md', import.meta.url);

describe('docs/rules.md', () => {
  it('says what the rules say; WRITE_DOCS=1 writes it anew', () => {
    if (process.env['WRITE_DOCS'] === '1') writeFileSync(page, rulesDocument());
    expect(readFileSync(page, 'utf8')).toBe(rulesDocument());
  });

  it('names every rule, its source and every default', () => {
    const text = rulesDocument();
    for (const rule of catalogue) {
      expect(text).toContain(`\`${rule.id}\``);
      expect(text).toContain(rule.citation);
      for (const [name, { byDefault }] of rule.parameters) expect(text).toContain(`| \`${name}\` | ${byDefault} |`);
    }
  });

  it('does not say that anything is safe, compliant or passes', () => {
    expect(rulesDocument()).not.toMatch(/\b(safe|compliant|passes|passed)\b/i);
  });
});

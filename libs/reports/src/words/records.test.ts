import { openSeason, recordTypes, typeEntry } from '@furrowmark/domain';
import { ruleBookView } from '@furrowmark/rules';
import { describe, expect, it } from '@jest/globals';
import { z } from 'zod';
import { memberInSpanish, memberNames } from './members.ts';
import { parameterNames } from './parameters.ts';
import { choiceName, typeNames } from './records.ts';

interface Named {
  readonly members: ReadonlySet<string>;
  /** `member value` of each fixed choice. */
  readonly choices: ReadonlySet<string>;
}

/** Every member and every fixed choice that the record types have, read off their schemas. */
function named(): Named {
  const members = new Set<string>();
  const choices = new Set<string>();
  const walk = (schema: unknown, member: string): void => {
    if (typeof schema !== 'object' || schema === null) return;
    for (const [key, value] of Object.entries(schema)) {
      if (key === 'enum' && Array.isArray(value)) for (const each of value) choices.add(`${member} ${String(each)}`);
      else if (key === 'const' && typeof value === 'string') choices.add(`${member} ${value}`);
      else if (key === 'properties')
        for (const [name, inner] of Object.entries(Object(value))) {
          members.add(name);
          walk(inner, name);
        }
      else if (Array.isArray(value)) for (const each of value) walk(each, member);
      else walk(value, member);
    }
  };
  for (const type of recordTypes) {
    const schema = typeEntry(type)?.schema();
    if (schema !== undefined) walk(z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }), '');
  }
  return { members, choices };
}

describe('the words for records', () => {
  const { members, choices } = named();
  it('are there for every type, every member and every fixed choice, in both languages', () => {
    expect(members.size).toBeGreaterThan(150);
    expect(recordTypes.filter((type) => typeNames[type] === undefined)).toEqual([]);
    expect([...members].filter((member) => memberNames[member] === undefined)).toEqual([]);
    const wordless = [...choices].filter((choice) => {
      const [member = '', value = ''] = choice.split(' ');
      // An outline is said by its corners.
      return value !== 'Polygon' && choiceName(member, value) === undefined;
    });
    expect(wordless).toEqual([]);
  });

  it('name a member that stands alone by a noun: a refusal is about “medidor”, a record was made “con” one', () => {
    expect(memberNames['instrumentId']?.slice(0, 2)).toEqual(['with', 'con']);
    expect(memberInSpanish('instrumentId')).toBe('medidor');
    expect(memberInSpanish('volume')).toBe('volumen');
    expect(memberInSpanish('ofALaterVersion')).toBe('ofALaterVersion');
    // One preposition or participle is no name; these are nouns.
    const nouns = new Set(['certificado', 'significado', 'estado', 'resultado']);
    const nameless = [...members].filter((member) => {
      const name = memberInSpanish(member);
      return (
        /^(?:a|con|de|en|para|por|como|sobre|\w+[ai]d[oa])(?: (?:el|por|hasta|desde))?$/.test(name) && !nouns.has(name)
      );
    });
    expect(nameless).toEqual([]);
  });

  it('are there for every figure of a rule book, with its unit', () => {
    const parameters = ruleBookView(openSeason([]), 0).rules.flatMap((rule) => Object.entries(rule.parameters));
    expect(parameters.length).toBeGreaterThan(60);
    const signs: Readonly<Record<string, string>> = {
      h: 'h',
      min: 'min',
      d: 'd',
      '%': '%',
      'mg/L': 'mg/L',
      '[degF]': '°F',
    };
    for (const [name, { unit = '' }] of parameters) {
      const words = parameterNames[name] ?? ['', ''];
      const sign = signs[unit];
      for (const text of words) expect([name, text]).toEqual([name, expect.stringMatching(/./)]);
      if (sign !== undefined)
        for (const text of words) expect([name, text.endsWith(`, ${sign}`)]).toEqual([name, true]);
    }
  });
});

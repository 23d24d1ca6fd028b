import { describe, expect, it } from '@jest/globals';
import { readFileSync } from 'node:fs';
import { isRecordType, parseDraft, recordTypes, typeEntry } from '@furrowmark/domain';
import { v7 } from 'uuid';
import { formIds } from '../../tank/forms/ids.ts';
import { forms } from '../../tank/forms/index.ts';
import { dataOf, drafted, type Drafted, type DraftedValue } from '../register/draft.ts';
import { memberName, choiceText } from '../register/words.ts';
import { registers, type Member } from '../register/members.ts';
import { happenings, type Happening, type Subject } from './happenings.ts';
import { happenedName } from './words.ts';

const all = Object.entries(happenings).flatMap(([of, list]) =>
  list.map((each): [string, string, Happening] => [of, each.type, each]),
);

/** Everything written that can be. */
function filled(members: readonly Member[]): Drafted {
  const empty = drafted(members, {});
  return Object.fromEntries(members.map((each) => [each.name, filledOne(each, empty[each.name])]));
}
function filledOne({ name, control, label }: Member, empty: DraftedValue | undefined): DraftedValue {
  switch (control.kind) {
    case 'quantity':
      return {
        kind: 'quantity',
        text: '1.5',
        unit: control.units[0]?.[0] ?? '',
        ...(control.qualified ? { qualifier: '<' } : {}),
      };
    case 'several':
      return { kind: 'several', chosen: control.of };
    case 'rows':
      return { kind: 'rows', rows: [filled(control.of), drafted(control.of, {})] };
    case 'date':
      return { kind: 'text', text: label === undefined ? '2026-05-01' : '2026-04-01' };
    case 'moment':
      return { kind: 'text', text: '2026-05-01T08:00:00-05:00' };
    case 'count':
      return { kind: 'text', text: '12' };
    case 'thing':
      return { kind: 'text', text: v7() };
    case 'one':
    case 'flag':
      return empty ?? { kind: 'text', text: '' };
    default:
      return { kind: 'text', text: name === 'plantedOn' ? '2026-04-10' : 'as written' };
  }
}
const ids: Readonly<Record<Subject, Readonly<Record<string, unknown>>>> = {
  ...{ vessel: { vesselId: v7() }, source: { sourceId: v7() }, instrument: { instrumentId: v7() } },
  ...{ equipment: { equipmentId: v7() }, material: { materialId: v7() }, field: { fieldId: v7() } },
  ...{ batch: { batchId: v7() }, person: { personId: v7() }, pile: { pileId: v7() }, office: {} },
  ...{ recipe: { recipeId: v7(), edition: 1 }, recipeInUse: { recipeId: v7() } },
};
const isSubject = (text: string): text is Subject => text in ids;

describe.each(all)('told of a %s: %s', (of, type, happening) => {
  const parsed = (form: Drafted) => {
    const written = dataOf(happening.members, form, {});
    const begun = happening.begins === undefined ? {} : { [happening.begins]: v7() };
    const about = isSubject(of) && happening.alone !== true ? ids[of] : {};
    const data = { ...about, ...begun, ...(happening.shape ?? ((each) => each))(written) };
    return parseDraft(
      { id: v7(), type, version: 1, occurredAt: '2026-06-01T08:00:00-05:00', data },
      { now: Date.parse('2026-06-02T00:00:00Z') },
    );
  };
  it('with everything written is a record that the service takes', () => {
    const answer = parsed(filled(happening.members));
    expect(answer.ok ? null : answer.problem).toBeNull();
  });
  it('has words for itself, its members and its choices in both languages', () => {
    const words = (members: readonly Member[]): string[] =>
      members.flatMap(({ name, label, control }) => [
        memberName(label ?? name, 'es'),
        ...(control.kind === 'rows' ? words(control.of) : []),
        ...(control.kind === 'one' || control.kind === 'several'
          ? control.of.filter((each) => /^[a-z]/.test(each)).map((each) => choiceText(each, 'es'))
          : []),
      ]);
    for (const word of [happenedName(type, 'es'), ...words(happening.members)])
      expect(word).not.toMatch(/^[a-z]+[A-Z.]/);
    expect(happenedName(type, 'en')).not.toBe(type);
  });
});

describe('the rest of a load', () => {
  const [ended] = happenings.batch;
  const members = ended?.members ?? [];
  const whole = (fate: string): Drafted => ({ ...filled(members), fate: { kind: 'text', text: fate } });
  it.each([
    ['dumped', ['drawId', 'fate', 'volume', 'where']],
    ['putBack', ['drawId', 'fate', 'volume']],
    ['carriedOver', ['drawId', 'fate', 'intoBatchId', 'volume']],
  ])('that was %s has %j, and nothing that was written for another fate', (fate, names) => {
    const data = dataOf(members, whole(fate), {});
    expect(Object.keys(data).sort()).toEqual(names);
    const draft = { id: v7(), type: 'draw.ended', version: 1, occurredAt: '2026-06-01T08:00:00-05:00', data };
    expect(parseDraft(draft, { now: Date.parse('2026-06-02T00:00:00Z') }).ok).toBe(true);
  });
});

describe('what the app can write down', () => {
  /** Written by a page of its own, below the web app's sources, and what stands in that source where it is. */
  const elsewhere: readonly (readonly [type: string, page: string, words?: string])[] = [
    ['ruleBook.adopted', 'desk/rules/ChangeForm.tsx'],
    ['operation.described', 'desk/setup/OperationForm.tsx', "ask('/operations', { method: 'POST'"],
    ['finding.answered', 'desk/findings/OneFinding.tsx'],
    ['batch.reviewed', 'desk/review/SignForm.tsx'],
    ['document.attached', 'desk/documents/DocumentsOf.tsx'],
    ['lot.counted', 'desk/lot/LotPage.tsx'],
    ...['held', 'released', 'recalled', 'disposed'].map(
      (deed) => [`lot.${deed}`, 'desk/lot/LotPage.tsx', `['${deed}', w.`] as const,
    ),
    ['person.registered', 'desk/setup/forms.tsx'],
    ['person.revised', 'desk/people/ChangePerson.tsx'],
    ['person.retired', 'desk/people/ChangePerson.tsx'],
    ['person.erased', 'desk/people/ErasePerson.tsx'],
    ['batch.opened', 'tank/StartPage.tsx'],
    ['record.amended', 'desk/register/Correct.tsx'],
    ['record.struck', 'desk/register/Correct.tsx'],
  ];
  it('is every record that a client may send', () => {
    const registered = Object.values(registers).flatMap(({ type, changes }) => [
      type,
      ...(changes ? [type.replace('registered', 'revised'), type.replace('registered', 'retired')] : []),
    ]);
    const can = new Set<string>([
      ...elsewhere.map(([type]) => type),
      ...registered,
      ...all.map(([, type]) => type),
      ...formIds.map((id) => forms[id].type),
    ]);
    const client = recordTypes.filter((type) => isRecordType(type) && typeEntry(type)?.server !== true);
    expect(client.filter((type) => !can.has(type))).toEqual([]);
  });
  it.each(elsewhere)('%s is written by %s', (type, page, words = `type: '${type}'`) => {
    expect(readFileSync(new URL(`../../${page}`, import.meta.url), 'utf8')).toContain(words);
  });
});

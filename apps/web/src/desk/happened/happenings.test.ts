import { describe, expect, it } from '@jest/globals';
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
  recipe: { recipeId: v7(), edition: 1 },
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
  it('is every record that a client may send, but for the few that are named here', () => {
    const elsewhere = [
      // The rule book, set-up, findings, reviews, lots, papers: pages of their own.
      ...['ruleBook.adopted', 'operation.described', 'finding.answered', 'batch.reviewed', 'document.attached'],
      ...[
        'lot.counted',
        'lot.held',
        'lot.released',
        'lot.recalled',
        'lot.disposed',
        'person.registered',
        'batch.opened',
      ],
      ...['record.amended', 'record.struck'],
      // A recipe goes out of use, a person changes or is erased: through the service or a program, so far.
      ...['recipe.retired', 'person.revised', 'person.retired', 'person.erased'],
    ];
    const registered = Object.values(registers).flatMap(({ type, changes }) => [
      type,
      ...(changes ? [type.replace('registered', 'revised'), type.replace('registered', 'retired')] : []),
    ]);
    const can = new Set<string>([
      ...elsewhere,
      ...registered,
      ...all.map(([, type]) => type),
      ...formIds.map((id) => forms[id].type),
    ]);
    const client = recordTypes.filter((type) => isRecordType(type) && typeEntry(type)?.server !== true);
    expect(client.filter((type) => !can.has(type))).toEqual([]);
  });
});

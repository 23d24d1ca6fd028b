import type { RuleView } from '@furrowmark/rules';
import { useMemo, useState } from 'react';
import { fromLocal, localText } from '../../clock/local.ts';
import { memberOf } from '../../http/read.ts';
import { personName } from '../../records/person.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';
import { textsAgain } from '../../tank/unfinished.ts';
import { useTyped } from '../../tank/useTyped.ts';
import { VerdictMark } from '../../verdict/VerdictMark.tsx';
import { useWordsOf } from '../../words/useWords.ts';
import { FigureEntry, SelectEntry, TextEntry } from '../Entry.tsx';
import type { Ready } from '../ready.tsx';
import { figureName } from './figureName.ts';
import { RecordForm } from '../RecordForm.tsx';
import { ruleWords } from './words.ts';

interface Entry {
  readonly ruleId: string;
  readonly enabled?: boolean;
  readonly inSystemPlan?: boolean;
  readonly parameters?: Readonly<Record<string, number>>;
  /** The `reference` of the certifier's ruling that asks for it. */
  readonly certifierReference?: string;
}

/** What is written in the form; `figures` by parameter. */
type Written = Readonly<{
  figures: Readonly<Record<string, string>>;
  texts: Readonly<Record<'enabled' | 'plan' | 'from' | 'ruling' | 'reason' | 'approvedBy', string>>;
}>;

const writtenAgain = ({ figures, texts }: Written, kept: object): Written => ({
  figures: textsAgain(figures, memberOf(kept, 'figures')),
  texts: textsAgain(texts, memberOf(kept, 'texts')),
});

/** A rule set otherwise: first what would differ, then adopted with its reason. */
export function ChangeForm({ local, rule }: { readonly local: Ready; readonly rule: RuleView }) {
  const w = useWordsOf(ruleWords);
  const { language } = useExternal(settings);
  const { engine, season } = local;
  const parameters = Object.entries(rule.parameters);
  const people = season.people().filter(({ retired, erased }) => retired === undefined && erased === undefined);
  const first = (): Written => ({
    figures: Object.fromEntries(parameters.map(([name, { value }]) => [name, String(value)])),
    texts: {
      enabled: rule.enabled ? 'yes' : 'no',
      plan: rule.inSystemPlan ? 'yes' : 'no',
      from: localText(Date.now(), season.timeZone),
      ruling: '',
      reason: '',
      approvedBy: people[0]?.id ?? '',
    },
  });
  const { values: written, set, done, begun } = useTyped(['rule', rule.ruleId], first, writtenAgain);
  const { figures: values, texts } = written;
  const { enabled, plan, from, ruling, reason } = texts;
  const approvedBy = people.find(({ id }) => id === texts.approvedBy)?.id ?? '';
  const write = (name: keyof Written['texts']) => (text: string) => set('texts')({ ...texts, [name]: text });
  const [previewing, setPreviewing] = useState(false);
  const entry = useMemo((): Entry | null => {
    const changed = Object.entries(values).flatMap(([name, text]) => {
      const value = Number(text);
      return text.trim() === '' || !Number.isFinite(value) || value === rule.parameters[name]?.value
        ? []
        : [[name, value] as const];
    });
    const [on, promised] = [enabled === 'yes', plan === 'yes'];
    if (changed.length === 0 && on === rule.enabled && promised === rule.inSystemPlan) return null;
    return {
      ruleId: rule.ruleId,
      ...(on === rule.enabled ? {} : { enabled: on }),
      ...(promised === rule.inSystemPlan ? {} : { inSystemPlan: promised }),
      ...(changed.length === 0 ? {} : { parameters: Object.fromEntries(changed) }),
      ...(ruling === '' ? {} : { certifierReference: ruling }),
    };
  }, [values, enabled, plan, ruling, rule]);
  const rulings = [
    ...new Set(
      season.ofType('certifier.wrote').flatMap(({ data }) => (data.kind === 'ruling' ? [data.reference] : [])),
    ),
  ];
  const faults = entry === null ? [] : engine.rules.faultsOf([entry], language);
  const switchWords = [
    ['yes', w.yes],
    ['no', w.no],
  ] as const;
  if (people.length === 0) return <p className="faint">{w.noPeople}</p>;
  return (
    <RecordForm
      local={local}
      alsoBy={[]}
      label={w.adopt}
      facts={() => {
        const at = fromLocal(from, season.timeZone);
        if (entry === null || faults.length > 0 || at === null) return null;
        const effectiveFrom = engine.domain.zonedText(at, season.timeZone);
        return [{ type: 'ruleBook.adopted', data: { effectiveFrom, entries: [entry], reason, approvedBy } }];
      }}
      begun={begun}
      onDone={() => done({ texts: { ...texts, reason: '' } })}
    >
      {parameters.map(([name, { description, unit }]) => (
        <FigureEntry
          key={name}
          label={figureName(name, description, unit, language)}
          value={values[name] ?? ''}
          onChange={(value) => set('figures')({ ...values, [name]: value })}
        />
      ))}
      <SelectEntry label={w.enabled} value={enabled} onChange={write('enabled')} options={switchWords} />
      <SelectEntry label={w.plan} value={plan} onChange={write('plan')} options={switchWords} />
      {rulings.length > 0 && (
        <SelectEntry
          label={w.ruling}
          help={w.rulingHelp}
          optional
          value={ruling}
          onChange={write('ruling')}
          options={[['', w.noRuling], ...rulings.map((each) => [each, each] as const)]}
        />
      )}
      {faults.map((fault) => (
        <p key={fault} role="alert" className="problem">
          {fault}
        </p>
      ))}
      <p>
        <button
          type="button"
          className="button quiet"
          disabled={entry === null || faults.length > 0}
          onClick={() => setPreviewing(true)}
        >
          {w.preview}
        </button>
      </p>
      {entry === null && <p className="faint">{w.same}</p>}
      {previewing && entry !== null && faults.length === 0 && <Preview local={local} entry={entry} />}
      <TextEntry label={w.from} help={w.fromHelp} type="datetime-local" value={from} onChange={write('from')} />
      <TextEntry label={w.reason} value={reason} onChange={write('reason')} />
      <SelectEntry
        label={w.approvedBy}
        value={approvedBy}
        onChange={write('approvedBy')}
        options={people.map((person) => [person.id, personName(engine, person)] as const)}
      />
    </RecordForm>
  );
}

/** What would be judged otherwise had the entry held throughout. */
function Preview({ local, entry }: { readonly local: Ready; readonly entry: Entry }) {
  const w = useWordsOf(ruleWords);
  const { engine, season } = local;
  const { version } = season;
  const { changed, unchanged } = useMemo(
    () => engine.rules.previewRuleBook(season, [entry], {}, Date.now()),
    [engine, season, version, entry],
  );
  return (
    <div role="status" className="preview">
      <p>{w.wouldDiffer(changed.length, unchanged)}</p>
      {changed.length > 0 && (
        <table>
          <thead>
            <tr>
              <th scope="col">{w.batch}</th>
              <th scope="col">{w.before}</th>
              <th scope="col">{w.after}</th>
            </tr>
          </thead>
          <tbody>
            {changed.map(({ about, before, after, ruleId }) => (
              <tr key={ruleId + about.kind + about.id}>
                <th scope="row">{about.code}</th>
                <td>
                  <VerdictMark verdict={before} />
                </td>
                <td>
                  <VerdictMark verdict={after} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </div>
  );
}

import { Link } from 'wouter';
import { useNow } from '../../clock/useNow.ts';
import { useWordsOf } from '../../words/useWords.ts';
import type { Ready } from '../ready.tsx';
import { setupWords } from './words.ts';

const questions = [
  ...['certificate', 'water', 'approvals', 'recipe', 'cleaning', 'meter', 'sprayer', 'land', 'plantings'],
  ...['training', 'rules'],
] as const;
type Question = (typeof questions)[number];

/** Where each is written down. */
const places: Readonly<Record<Question, string>> = {
  certificate: '/registers#office',
  water: '/registers#source.registered',
  approvals: '/registers#material.registered',
  recipe: '/registers#recipes',
  cleaning: '/registers#vessel.registered',
  meter: '/registers#instrument.registered',
  sprayer: '/registers#equipment.registered',
  land: '/fields',
  plantings: '/fields',
  training: '/registers#people',
  rules: '/rules',
};

/** The codes of what is still without an answer; empty: everything has one. Where nothing is there, it is open: `''`. */
function open({ engine, season }: Ready, question: Question, now: number): readonly string[] {
  const without = <T extends { readonly registered: { readonly code: string } }>(
    all: readonly T[],
    told: (each: T) => boolean,
  ): readonly string[] =>
    all.length === 0 ? [''] : all.filter((each) => !told(each)).map(({ registered }) => registered.code);
  const none = (there: boolean): readonly string[] => (there ? [] : ['']);
  switch (question) {
    case 'certificate': {
      const { operation } = season;
      const revised = season.ofType('operation.revised').some(({ data }) => data.certificate !== undefined);
      return none(operation?.registered.certificate !== undefined || revised);
    }
    case 'water':
      return without(
        season.sources(),
        ({ id }) => season.naming('source.tested', id).length > 0 || season.naming('source.documented', id).length > 0,
      );
    case 'approvals':
      return without(season.materials(), ({ approvals }) => approvals.length > 0);
    case 'recipe':
      return none(season.recipes().length > 0);
    case 'cleaning':
      return without(season.vessels(), ({ id }) => season.naming('vessel.cleaned', id).length > 0);
    case 'meter':
      return without(
        season.instruments(),
        ({ id }) =>
          season.naming('instrument.calibrated', id).length > 0 || season.naming('instrument.checked', id).length > 0,
      );
    case 'sprayer':
      return without(
        season.allEquipment().filter(({ registered }) => registered.kind === 'sprayer'),
        ({ id }) => season.naming('equipment.calibrated', id).length > 0,
      );
    case 'land':
      return without(season.fields(), ({ registered }) => registered.buffer !== undefined);
    case 'plantings':
      return none(season.plantings().length > 0);
    case 'training':
      return none(season.ofType('person.trained').length > 0);
    case 'rules':
      return none(engine.rules.ruleBookView(season, now).rules.every(({ enabled }) => enabled));
  }
}

/** What an inspector is likely to ask for, when there is time: why, what is still open, and where it is written down. */
export function InspectorAsks({ local }: { readonly local: Ready }) {
  const w = useWordsOf(setupWords);
  const now = useNow();
  const asked = questions.map((name) => ({ name, missing: open(local, name, now) }));
  return (
    <section className="stack" aria-labelledby="asks">
      <h2 id="asks">{w.asks}</h2>
      <p className="faint">{w.asksText}</p>
      <p>{w.asksOpen(asked.filter(({ missing }) => missing.length > 0).length, asked.length)}</p>
      <ul className="steps">
        {asked.map(({ name, missing }) => (
          <li key={name} className="card">
            <h3>
              {missing.length === 0 ? (
                <span className="verdict met">● {w.there}</span>
              ) : (
                <span className="verdict due">○ {w.stillOpen}</span>
              )}{' '}
              {w[`q_${name}`]}
            </h3>
            <p className="faint">{w[`why_${name}`]}</p>
            {missing.some((code) => code !== '') && <p>{w.notYetOf(missing.slice(0, 8).join(', '))}</p>}
            <p>
              <Link href={places[name]} className="button quiet" aria-label={`${w.goThere}: ${w[`q_${name}`]}`}>
                {w.goThere}
              </Link>
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}

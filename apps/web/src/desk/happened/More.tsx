import { useEffect, useMemo } from 'react';
import { dayText } from '../../clock/text.ts';
import { quantityText } from '../../quantity/text.ts';
import { roleOf, session } from '../../session/session.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { v7 } from 'uuid';
import { People } from '../people/People.tsx';
import type { Ready } from '../ready.tsx';
import { WhatHappened } from './WhatHappened.tsx';
import { happenedWords } from './words.ts';

/** What is written down of things without a register of their own: recipes, compost piles, people, letters. */
export function More({ local }: { readonly local: Ready }) {
  // Somebody was sent to one of these: `/registers#recipes`.
  useEffect(() => {
    const { hash } = location;
    if (/^#(recipes|piles|people|office)$/.test(hash)) document.querySelector(hash)?.scrollIntoView();
  }, []);
  return (
    <>
      <Recipes local={local} />
      <Piles local={local} />
      <People local={local} />
      <Office local={local} />
    </>
  );
}

function Recipes({ local }: { readonly local: Ready }) {
  const w = useWordsOf(happenedWords);
  const { language } = useExternal(settings);
  const { season } = local;
  const { version } = season;
  // Of each recipe the edition that holds now; what is out of use last.
  const recipes = useMemo(() => {
    const newest = [...new Map(season.recipes().map((each) => [each.data.recipeId, each])).values()];
    const all = newest.map(({ data }) => ({ data, retired: season.naming('recipe.retired', data.recipeId).at(-1) }));
    return all.toSorted((a, b) => Number(a.retired !== undefined) - Number(b.retired !== undefined));
  }, [season, version]);
  const mayRetire = ['manager', 'reviewer'].includes(roleOf(useExternal(session)) ?? '');
  const begun = useMemo(() => v7(), [recipes.length]); // Another id for each new one.
  return (
    <section className="card" aria-labelledby="recipes">
      <h2 id="recipes">{w.recipes}</h2>
      <ul className="entries">
        {recipes.map(({ data, retired }) => (
          <li key={data.recipeId}>
            <p>
              <strong>{data.code}</strong>{' '}
              <span className="faint">
                {w.edition(data.edition)} · {quantityText(data.basisVolume, language)}:{' '}
                {data.ingredients
                  .map(
                    ({ materialId, amount }) =>
                      `${season.material(materialId)?.registered.name ?? '?'} ${quantityText(amount, language)}`,
                  )
                  .join(', ')}
                {retired !== undefined && ` · ${w.givenUp(retired.data.reason)}`}
              </span>
            </p>
            {retired === undefined && (
              <>
                <WhatHappened
                  local={local}
                  of="recipe"
                  about={{ recipeId: data.recipeId, edition: data.edition + 1 }}
                  name={`${w.nextEdition}: ${data.code}`}
                />
                {mayRetire && (
                  <WhatHappened
                    local={local}
                    of="recipeInUse"
                    about={{ recipeId: data.recipeId }}
                    name={`${w.giveUp}: ${data.code}`}
                  />
                )}
              </>
            )}
          </li>
        ))}
      </ul>
      <WhatHappened local={local} of="recipe" about={{ recipeId: begun, edition: 1 }} name={w.newRecipe} />
    </section>
  );
}

function Piles({ local }: { readonly local: Ready }) {
  const w = useWordsOf(happenedWords);
  const { language } = useExternal(settings);
  const { season } = local;
  const piles = season.ofType('pile.started');
  if (piles.length === 0) return null;
  return (
    <section className="card" aria-labelledby="piles">
      <h2 id="piles">{w.piles}</h2>
      <ul className="entries">
        {piles.map(({ id, at, data: { pileId, code } }) => {
          const over = season.naming('pile.finished', pileId).length > 0;
          return (
            <li key={id}>
              <p>
                <strong>{code}</strong>{' '}
                <span className="faint">
                  {dayText(at.at, season.timeZone, language)}
                  {over ? ` · ${w.finished}` : ''}
                </span>
              </p>
              {!over && <WhatHappened local={local} of="pile" about={{ pileId }} name={`${w.title}: ${code}`} />}
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function Office({ local }: { readonly local: Ready }) {
  const w = useWordsOf(happenedWords);
  return (
    <section className="card" aria-labelledby="office">
      <h2 id="office">{w.office}</h2>
      <p className="faint">{w.officeIntro}</p>
      <WhatHappened local={local} of="office" about={{}} />
    </section>
  );
}

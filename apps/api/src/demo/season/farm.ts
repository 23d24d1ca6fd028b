import type { Diary } from './diary.ts';
import { fields, type Fields } from './ground.ts';
import { people, type People } from './people.ts';
import { recipes, type Recipes } from './recipes.ts';
import { stores, type Stores } from './stores.ts';
import { yard, type Yard } from './yard.ts';

/** Quillfen Growers: everything that the season happens to. */
export interface Farm {
  readonly diary: Diary;
  readonly people: People;
  readonly fields: Fields;
  readonly yard: Yard;
  readonly stores: Stores;
  readonly recipes: Recipes;
}

/** Registers the farm in the first week of April. */
export function farm(diary: Diary): Farm {
  const certificate = {
    certifier: 'Example Certifying Agent',
    number: 'EX-0042',
    from: diary.date('01-15'),
    scope: 'crops',
  };
  diary.write('operation.revised', '04-06 08:00', { address: '12 Quillfen Lane', certificate }, { by: 'manager' });
  const registered = { people: people(diary), fields: fields(diary), yard: yard(diary), stores: stores(diary) };
  return { diary, ...registered, recipes: recipes(diary, registered.stores) };
}

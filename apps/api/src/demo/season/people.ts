import type { Diary } from './diary.ts';

/** Everybody here is invented. */
export interface People {
  /** Runs the farm, keeps the rule book. */
  readonly orla: string;
  /** Brews. */
  readonly ines: string;
  /** Drives the sprayer. */
  readonly tobin: string;
  /** Keeps the office: reads and signs the batch records. */
  readonly sefa: string;
}

const address = '12 Quillfen Lane';

export function people(diary: Diary): People {
  const register = (name: string, initials: string, title: string, language: string): string => {
    const personId = diary.newId();
    const personal = { name, initials, title, address };
    diary.write('person.registered', '04-06 08:10', { personId, personal, language }, { by: 'manager' });
    return personId;
  };
  const orla = register('Orla Vennick', 'OV', 'grower', 'en');
  const ines = register('Ines Harrow', 'IH', 'brewer', 'es');
  const tobin = register('Tobin Quay', 'TQ', 'applicator', 'en');
  const sefa = register('Sefa Lindgarth', 'SL', 'farm office', 'en');

  const train = (at: string, personId: string, topic: string): void => {
    diary.write('person.trained', at, { personId, topic, by: 'Orla Vennick' }, { by: 'manager' });
  };
  for (const personId of [ines, tobin]) {
    train('04-08 13:00', personId, 'hygiene, and handling of tea and compost');
    train('04-08 14:00', personId, 'chlorine test reagents, electricity beside wet tanks');
  }
  train('04-09 13:00', tobin, 'calibrating and rinsing the sprayer');
  return { orla, ines, tobin, sefa };
}

import { describe, expect, it } from '@jest/globals';
import { whoHere } from './person.ts';

describe('who holds this device', () => {
  const season = {
    person(id: string) {
      if (id === 'left') return { retired: { reason: 'moved away' } };
      if (id === 'erased') return { erased: { reason: 'asked for it' } };
      return id === 'here' ? {} : undefined;
    },
  };
  it('is who was chosen last, also where the register has not come yet', () => {
    const held = ['here', 'not known yet', null].map((who) => whoHere(season, who));
    expect(held).toEqual(['here', 'not known yet', null]);
  });
  it('is nobody once that person has left or was erased, on whatever device that was recorded', () => {
    expect([whoHere(season, 'left'), whoHere(season, 'erased')]).toEqual([null, null]);
  });
});

import { describe, expect, it } from '@jest/globals';
import { entriesGiven } from '../../tank/unfinished.ts';
import { changesIn, dataOf, drafted, draftedAgain } from './draft.ts';
import { registers } from './members.ts';

const { members } = registers['field.registered'];
const field = {
  fieldId: '01976f00-0000-7000-8000-0000000000f1',
  code: 'North 4',
  kind: 'field',
  area: { value: 6.5, unit: '[acr_us]' },
  // With a pond, and a height that a surveyor wrote.
  boundary: {
    type: 'Polygon',
    coordinates: [
      [
        [-93.1, 41, 287],
        [-93.098, 41],
        [-93.098, 41.002],
        [-93.1, 41, 287],
      ],
      [
        [-93.099, 41.0005],
        [-93.0985, 41.0005],
        [-93.0985, 41.001],
        [-93.099, 41.0005],
      ],
    ],
  },
  landStatus: 'organic',
  buffer: '50 ft of grass',
};

describe('a register’s form', () => {
  it('left as it is gives the record back, with what it does not show: its id', () => {
    expect(dataOf(members, drafted(members, field), field)).toEqual(field);
    expect(changesIn(members, drafted(members, field), field)).toEqual({});
  });

  it('names in a revision only what was changed', () => {
    const form = { ...drafted(members, field), area: { kind: 'quantity', text: '6.2', unit: '[acr_us]' } } as const;
    expect(changesIn(members, form, field)).toEqual({ area: { value: 6.2, unit: '[acr_us]' } });
    expect(dataOf(members, form, field)).toEqual({ ...field, area: { value: 6.2, unit: '[acr_us]' } });
  });

  it('with an outline that is none hands it on to be refused: it is not left out without a word', () => {
    const form = { ...drafted(members, field), boundary: { kind: 'text', text: '-93.1, 41\n-93.098, 41' } } as const;
    expect(dataOf(members, form, field)['boundary']).toEqual({
      ...{ type: 'Polygon', coordinates: [[[-93.1, 41], [-93.098, 41]]] }, // prettier-ignore
    });
    const words = { ...drafted(members, field), boundary: { kind: 'text', text: 'as far as the oak' } } as const;
    expect(dataOf(members, words, field)['boundary']).toEqual({ type: 'Polygon', coordinates: [[[]]] });
  });

  it('with a text emptied leaves it out, but for a supplier’s lot number: that the bag bears none is an answer', () => {
    const form = { ...drafted(members, field), buffer: { kind: 'text', text: '' } } as const;
    expect(dataOf(members, form, field)).not.toHaveProperty('buffer');
    const lot = registers['lot.received'].members;
    expect(dataOf(lot, drafted(lot, {}), {})).toMatchObject({ supplierLot: '' });
  });

  it('that comes back half typed has what was written; what stands in the log meanwhile is not undone by it', () => {
    const first = drafted(members, field);
    const written = { ...first, area: { kind: 'quantity', text: '6.2', unit: '[acr_us]' } } as const;
    const { form: kept } = entriesGiven({ form: written }, { form: first });
    expect(kept).toEqual({ area: { kind: 'quantity', text: '6.2', unit: '[acr_us]' } });
    // Somebody else wrote another buffer before it came back.
    const now = { ...field, buffer: '60 ft of grass' };
    const again = draftedAgain(drafted(members, now), kept);
    expect(changesIn(members, again, now)).toEqual({ area: { value: 6.2, unit: '[acr_us]' } });
    expect(draftedAgain(first, { area: { kind: 'text', text: 'of an older form' }, gone: 1 })).toEqual(first);
    expect(draftedAgain(first, null)).toEqual(first);
  });

  it('of something new begins with the first of each list that must be answered, and nothing where it may be left out', () => {
    const form = drafted(registers['material.registered'].members, {});
    expect(form['kind']).toEqual({ kind: 'text', text: 'compost' });
    expect(form['harmsTea']).toEqual({ kind: 'text', text: '' });
  });

  it('takes a meter that measures one thing as one that measures several', () => {
    const instrument = registers['instrument.registered'].members;
    expect(drafted(instrument, { measures: 'dissolvedOxygen' })['measures']).toEqual({
      kind: 'several',
      chosen: ['dissolvedOxygen'],
    });
  });
});

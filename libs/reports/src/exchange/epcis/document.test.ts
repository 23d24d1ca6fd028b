import { describe, expect, it } from '@jest/globals';
import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
import { EPCISDocument } from 'epcis2.js';
import fc from 'fast-check';
import schema from '../../../../../test/checks/epcis/EPCISDocument.schema.json' with { type: 'json' };
import { randomSeason } from '../../testing/random-season.ts';
import { brew, farm, gal, given, harvest, id, lb, loads, seasonOf, type Line } from '../../testing/season.ts';
import { epcisDocument, type EpcisEvent, type Gs1Keys, type Wanted } from './index.ts';

// The official schema of EPCIS 2.0, see test/checks/epcis.
const ajv = new Ajv({ strict: false, allErrors: true });
addFormats.default(ajv);
const fits = ajv.compile(schema);
const faults = (document: unknown): unknown => (fits(document) ? [] : fits.errors);

const always: Wanted = { period: { from: '1970-01-01', to: '2999-12-31', start: -Infinity, end: Infinity } };
const uri = (name: string): string => `urn:uuid:${id(name)}`;
const eventsOf = (lines: readonly Line[], wanted: Wanted = always, keys?: Gs1Keys): readonly EpcisEvent[] => {
  const document = epcisDocument(seasonOf(...lines), given, wanted, keys);
  expect(faults(document)).toEqual([]);
  return document.epcisBody.eventList;
};
const season = [...farm, ...brew, ...loads, ...harvest];
const ofStep = (events: readonly EpcisEvent[], step: string, type = 'ObjectEvent') =>
  events.filter((event) => event.bizStep === step && event.type === type);

describe('EPCIS 2.0 events', () => {
  it('are valid under the official schema whatever was recorded, in whatever order', () => {
    fc.assert(
      fc.property(randomSeason, (open) => {
        const document = epcisDocument(open, given, always);
        expect(faults(document)).toEqual([]);
        const ids = document.epcisBody.eventList.map(({ eventID }) => eventID);
        expect(new Set(ids).size).toBe(ids.length);
      }),
      { numRuns: 150 },
    );
  });

  it('come back unchanged, master data too, from an outside reader that takes them apart and writes them anew', () => {
    // epcis2.js 2.7.3 (Apache License 2.0) makes an object of its own of every event, quantity, source and destination, and
    // throws at a field whose type is not that of EPCIS 2.0.
    const backFrom = (document: unknown): unknown => new EPCISDocument(JSON.parse(JSON.stringify(document))).toObject();
    const written = epcisDocument(seasonOf(...season), given, always);
    expect(backFrom(written)).toEqual(JSON.parse(JSON.stringify(written)));
    fc.assert(
      fc.property(randomSeason, (open) => {
        const document = epcisDocument(open, given, always);
        expect(backFrom(document)).toEqual(JSON.parse(JSON.stringify(document)));
      }),
      { numRuns: 100 },
    );
  });

  it('the schema refuses what the guideline refuses: no time zone offset, an action on a transformation, a long unit', () => {
    const document = epcisDocument(seasonOf(...season), given, always);
    const spoilt = (change: (event: Record<string, unknown>) => void): unknown => {
      const copy = structuredClone<{ epcisBody: { eventList: Record<string, unknown>[] } }>(
        JSON.parse(JSON.stringify(document)),
      );
      const event = copy.epcisBody.eventList.find(({ type }) => type === 'TransformationEvent');
      if (event !== undefined) change(event);
      return faults(copy);
    };
    expect(spoilt(() => undefined)).toEqual([]);
    expect(spoilt((event) => delete event['eventTimeZoneOffset'])).not.toEqual([]);
    expect(spoilt((event) => (event['action'] = 'ADD'))).not.toEqual([]);
    expect(
      spoilt((event) => (event['outputQuantityList'] = [{ epcClass: uri('T-1'), quantity: 1, uom: 'gallon' }])),
    ).not.toEqual([]);
    expect(spoilt((event) => (event['bizStep'] = 'brewing'))).not.toEqual([]);
  });

  it('a bought lot is received, as a class with its quantity in pounds, at local time with its offset', () => {
    expect(ofStep(eventsOf(season), 'receiving').find((event) => event['furrowmark:code'] === 'WC-1')).toMatchObject({
      action: 'OBSERVE',
      // 2 April 08:00 in New York
      eventTime: '2026-04-02T12:00:00.000Z',
      eventTimeZoneOffset: '-04:00',
      quantityList: [{ epcClass: uri('WC-1'), quantity: 100, uom: 'LBR' }],
      'furrowmark:supplierLot': 'S7',
    });
  });

  it('a batch is a transformation of water and lots into tea; it has no action', () => {
    const [batch, ...more] = ofStep(eventsOf(season), 'commissioning', 'TransformationEvent');
    expect(more).toEqual([]);
    expect(batch).toMatchObject({
      transformationID: uri('T-1'),
      inputQuantityList: [
        { epcClass: uri('well'), quantity: 300, uom: 'GLL' },
        { epcClass: uri('WC-1'), quantity: 10, uom: 'LBR' },
      ],
      // 300 gal × 3.785411784 L (NIST Handbook 44, Appendix C)
      outputQuantityList: [{ epcClass: uri('T-1'), quantity: 1135.6235352, uom: 'LTR' }],
      readPoint: { id: uri('tote') },
    });
    expect(batch).not.toHaveProperty('action');
  });

  it('what is added after a draw is a transformation of its own, so it is not in the load drawn before', () => {
    const later: Line = [
      'batch.ingredientAdded',
      '04-21 12:00',
      { batchId: id('T-1'), lotId: id('MO-1'), quantity: gal(1) },
    ];
    const stretches = ofStep(eventsOf([...season, later]), 'commissioning', 'TransformationEvent');
    expect(
      stretches.map((event) =>
        'inputQuantityList' in event ? event.inputQuantityList?.map(({ epcClass }) => epcClass) : [],
      ),
    ).toEqual([[uri('well'), uri('WC-1')], [uri('MO-1')]]);
    expect(new Set(stretches.map((event) => ('transformationID' in event ? event.transformationID : '')))).toEqual(
      new Set([uri('T-1')]),
    );
  });

  it('an application is an event for each field: the tea that it got, the dumped rest taken off', () => {
    const made = eventsOf(season).filter((event) => event.bizStep === 'other');
    expect(made.map((event) => [event.readPoint?.id, 'quantityList' in event ? event.quantityList : []])).toEqual([
      // 120 gal drawn, 8 dumped: 112 × 3.785411784
      [uri('North'), [{ epcClass: uri('T-1'), quantity: 423.966119808, uom: 'LTR' }]],
      // 150 gal over 1 and 2 acres: 50 and 100
      [uri('North'), [{ epcClass: uri('T-1'), quantity: 189.2705892, uom: 'LTR' }]],
      [uri('East'), [{ epcClass: uri('T-1'), quantity: 378.5411784, uom: 'LTR' }]],
    ]);
  });

  it('a harvest comes to be on its field, then is shipped', () => {
    const events = eventsOf(season);
    expect(ofStep(events, 'commissioning')).toEqual([
      expect.objectContaining({
        action: 'ADD',
        quantityList: [{ epcClass: uri('H-1'), quantity: 2400, uom: 'LBR' }],
        bizLocation: { id: uri('North') },
        'furrowmark:crop': 'carrots',
      }),
    ]);
    expect(ofStep(events, 'shipping')).toEqual([
      expect.objectContaining({
        action: 'OBSERVE',
        quantityList: [{ epcClass: uri('H-1'), quantity: 1200, uom: 'LBR' }],
        'furrowmark:reference': 'BOL 118',
      }),
    ]);
  });

  it('a pile is a transformation of the lots in it into an own lot', () => {
    const pile: readonly Line[] = [
      [
        'pile.started',
        '03-01 08:00',
        { pileId: id('P'), code: 'P-1', method: 'windrow', inputs: [{ lotId: id('WC-1'), quantity: lb(40) }] },
      ],
      ['pile.added', '03-02 08:00', { pileId: id('P'), lotId: id('MO-1'), quantity: gal(1) }],
      [
        'pile.finished',
        '04-15 08:00',
        { pileId: id('P'), lotId: id('own'), code: 'OC-1', materialId: id('WC'), quantity: lb(30) },
      ],
    ];
    expect(eventsOf([...farm, ...pile]).filter(({ type }) => type === 'TransformationEvent')).toEqual([
      expect.objectContaining({
        inputQuantityList: [
          { epcClass: uri('WC-1'), quantity: 40, uom: 'LBR' },
          { epcClass: uri('MO-1'), quantity: 1, uom: 'GLL' },
        ],
        outputQuantityList: [{ epcClass: uri('own'), quantity: 30, uom: 'LBR' }],
      }),
    ]);
  });

  it('of one lot only what lies on its way', () => {
    const events = eventsOf(
      [
        ...season,
        [
          'lot.received',
          '04-03 08:00',
          { lotId: id('X'), code: 'X', materialId: id('MO'), supplierLot: '', quantity: gal(1) },
        ],
      ],
      {
        lotId: id('WC-1'),
      },
    );
    expect(JSON.stringify(events)).not.toContain(id('X'));
    expect(events.map(({ bizStep }) => bizStep)).toEqual([
      'receiving',
      'commissioning',
      'other',
      'destroying',
      'other',
      'other',
      'commissioning',
      'shipping',
    ]);
  });

  it('of a period only what happened in it', () => {
    const start = Date.parse('2026-08-01T00:00:00-04:00');
    const events = eventsOf(season, {
      period: { from: '2026-08-01', to: '2026-08-31', start, end: start + 31 * 86_400_000 },
    });
    expect(events.map(({ bizStep }) => bizStep)).toEqual(['commissioning', 'shipping']);
  });

  it('uses the operation’s GS1 keys for lots and its place, where it has them', () => {
    const keys = { gln: '6291041500213', gtins: new Map([[id('WC'), '6291041500213']]) };
    const received = ofStep(eventsOf(season, always, keys), 'receiving').find(
      (event) => event['furrowmark:code'] === 'WC-1',
    );
    expect(received).toMatchObject({
      quantityList: [{ epcClass: 'https://id.gs1.org/01/06291041500213/10/WC-1' }],
      readPoint: { id: 'https://id.gs1.org/414/6291041500213' },
    });
  });

  it('tells names of lots and places, and of no person', () => {
    const document = epcisDocument(seasonOf(...season), given, always);
    const text = JSON.stringify(document);
    expect(text).toContain('"North"');
    expect(text).toContain('worm compost');
    expect(text).not.toContain('Harrow');
    expect(text).not.toContain(id('Ines'));
  });
});

describe('events that were corrected', () => {
  const shipped = (quantity: number) => ({
    harvestId: id('H-1'),
    quantity: lb(quantity),
    to: 'packing shed',
    reference: 'BOL 118',
  });
  const wrong = id(`record ${season.length - 1}`);

  it('an amended one has a new id; the first is sent again with an error declaration that names it', () => {
    const amended: Line = [
      'record.amended',
      '08-28 09:00',
      { recordId: wrong, type: 'harvest.shipped', version: 1, data: shipped(1100), reason: 'weighed again' },
      { id: id('correction') },
    ];
    const both = ofStep(eventsOf([...season, amended]), 'shipping');
    expect(both).toEqual([
      expect.objectContaining({
        eventID: `urn:uuid:${id('correction')}`,
        quantityList: [{ epcClass: uri('H-1'), quantity: 1100, uom: 'LBR' }],
      }),
      expect.objectContaining({
        eventID: `urn:uuid:${wrong}`,
        quantityList: [{ epcClass: uri('H-1'), quantity: 1200, uom: 'LBR' }],
        errorDeclaration: {
          declarationTime: '2026-08-28T13:00:00.000Z',
          reason: 'incorrect_data',
          correctiveEventIDs: [`urn:uuid:${id('correction')}`],
        },
      }),
    ]);
    expect(both[0]).not.toHaveProperty('errorDeclaration');
  });

  it('a struck one did not occur', () => {
    const struck: Line = [
      'record.struck',
      '08-28 09:00',
      { recordId: wrong, type: 'harvest.shipped', reason: 'never left' },
    ];
    expect(ofStep(eventsOf([...season, struck]), 'shipping')).toEqual([
      expect.objectContaining({
        errorDeclaration: { declarationTime: '2026-08-28T13:00:00.000Z', reason: 'did_not_occur' },
      }),
    ]);
  });

  it('an uncertain time says between which moments it lies', () => {
    const about: Line = [
      'lot.disposed',
      '05-02 08:00',
      { lotId: id('WC-1'), quantity: lb(1), reason: 'wet' },
      { plusMinusMinutes: 30 },
    ];
    expect(ofStep(eventsOf([...farm, about]), 'destroying')).toEqual([
      expect.objectContaining({
        eventTime: '2026-05-02T12:00:00.000Z',
        'furrowmark:notBefore': '2026-05-02T11:30:00.000Z',
        'furrowmark:notAfter': '2026-05-02T12:30:00.000Z',
      }),
    ]);
  });
});

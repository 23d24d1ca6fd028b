import { describe, expect, it } from '@jest/globals';
import { openSeason } from '../fold/season.ts';
import { gallons, idOf, litresOf } from '../testing/book.ts';
import { airOff, airOn, apply, draw, farm, fill, open, put } from '../testing/brew.ts';
import { batchView, timeline } from './view.ts';

function season() {
  const book = farm();
  open(book, 'T-14', '02 05:00');
  book.write('batch.filled', '02 05:30', {
    batchId: idOf('T-14'),
    sourceId: idOf('city water'),
    volume: gallons(250),
  });
  airOn(book, 'T-14', '02 05:35');
  put(book, 'T-14', '02 05:57', 'compost', 5);
  airOff(book, 'T-14', '02 09:00');
  airOn(book, 'T-14', '02 09:09');
  const wrong = book.write('batch.oxygenMeasured', '02 17:00', {
    batchId: idOf('T-14'),
    dissolvedOxygen: { value: 74, unit: 'mg/L' },
    temperature: { value: 64, unit: '[degF]' },
  });
  book.amend(wrong, '02 17:02', {
    batchId: idOf('T-14'),
    dissolvedOxygen: { value: 7.4, unit: 'mg/L' },
    temperature: { value: 64, unit: '[degF]' },
  });
  airOff(book, 'T-14', '03 06:27');
  apply(book, 'A-1', '03 14:00', '03 15:39', { loads: [{ batch: 'T-14', litres: 900 }] });
  book.write('batch.closed', '03 16:00', { batchId: idOf('T-14'), remainingVolume: litresOf(20) });
  const opened = openSeason(book.records);
  const batch = opened.batch(idOf('T-14'));
  if (batch === undefined) throw new Error('no batch');
  return { opened, batch, wrong };
}

describe('a batch as outsiders read it', () => {
  it('gives its clocks as plain numbers: 22 min of pre-aeration, 24.5 h of brewing, 9.2 h of holding', () => {
    const facts = batchView(season().batch);
    expect(facts).toMatchObject({
      volumeFilled: { value: 250, unit: '[gal_us]' },
      filledAt: '2026-06-02T05:30:00Z',
      airStartedAt: '2026-06-02T05:35:00Z',
      brewStartedAt: '2026-06-02T05:57:00Z',
      airStoppedAt: '2026-06-03T06:27:00Z',
      preAerationMinutes: 22,
      brewHours: 24.5,
      holdHours: 9.2,
    });
    expect(facts).not.toHaveProperty('holdHoursRange');
    expect(facts.airInterruptions).toEqual([
      expect.objectContaining({ from: '2026-06-02T09:00:00Z', to: '2026-06-02T09:09:00Z', minutes: 9 }),
    ]);
  });

  it('gives what was filled by a household measure in litres: 10 pails of 20 L', () => {
    const book = farm();
    book.write('measure.registered', '01 08:00', {
      ...{ measureId: idOf('pail'), name: 'white pail' },
      ...{ equals: litresOf(20), weighedOn: '2026-05-01' },
    });
    open(book, 'T-14', '02 05:00');
    const volume = { value: 10, unit: '{measure}', measureId: idOf('pail') };
    book.write('batch.filled', '02 05:30', { batchId: idOf('T-14'), sourceId: idOf('city water'), volume });
    const batch = openSeason(book.records).batch(idOf('T-14'));
    expect(batch && batchView(batch).volumeFilled).toEqual({ value: 200, unit: 'L' });
  });

  it('gives the volume account in litres: 946.352946 in, 900 out, 20 left, 26.352946 not accounted for', () => {
    expect(batchView(season().batch).volume).toMatchObject({
      filledL: 946.352946,
      drawnL: 900,
      lostL: 0,
      disposedL: 0,
      remainingL: 20,
      unaccountedL: 26.352946,
    });
  });

  it('counts the longest gap without a reading from 17:00 to the air off at 06:27: 13.45 h', () => {
    const { oxygen } = batchView(season().batch);
    expect(oxygen.longestGapHours).toBe(13.45);
    expect(oxygen.lowestMgPerL).toBe(7.4);
    // 17:00 to the draw at 14:00 the next day: 21 h.
    expect(oxygen.lastBeforeDrawMinutes).toBe(21 * 60);
    // 64 °F = 17.778 °C holds 9.51 mg/L at sea level (Benson & Krause; USGS table: 9.48 at 18 °C): 7.4 is 78 %.
    expect(oxygen.readings[0]?.saturationPercent).toBeGreaterThan(77.5);
    expect(oxygen.readings[0]?.saturationPercent).toBeLessThan(78.5);
  });

  it('an uncertain clock has its range beside it', () => {
    const book = farm();
    airOff(book, 'T-14', '03 06:00', { plusMinusMinutes: 60 });
    apply(book, 'A-1', '03 12:30', '03 13:30', { loads: [{ batch: 'T-14', litres: 900 }] });
    const batch = openSeason(book.records).batch(idOf('T-14'));
    expect(batch && batchView(batch)).toMatchObject({ holdHours: 7.5, holdHoursRange: [6.5, 8.5] });
  });

  it('has no range beside a time that is sure, and the earliest and latest beside one that is not', () => {
    const book = farm();
    airOn(book, 'T-14', '02 05:35');
    put(book, 'T-14', '02 06:00', 'compost', 5);
    airOff(book, 'T-14', '03 06:00', { plusMinusMinutes: 60 });
    const batch = openSeason(book.records).batch(idOf('T-14'));
    if (batch === undefined) throw new Error('no batch');
    const facts = batchView(batch);
    expect(facts).not.toHaveProperty('brewStartedAtRange');
    expect(facts).toMatchObject({ airStoppedAtRange: ['2026-06-03T05:00:00Z', '2026-06-03T07:00:00Z'] });
  });

  it('was filled when the first water went in, where all of it went onto living tea', () => {
    const book = farm();
    put(book, 'T-14', '02 06:00', 'compost', 5);
    fill(book, 'T-14', '02 07:00', 500);
    fill(book, 'T-14', '02 08:00', 500);
    const batch = openSeason(book.records).batch(idOf('T-14'));
    expect(batch && batchView(batch)).toMatchObject({ filledAt: '2026-06-02T07:00:00Z' });
  });

  it('a reading without a temperature has none, and no saturation; without readings there is no gap to tell', () => {
    const book = farm();
    open(book, 'T-14', '02 05:00');
    const oxygen = () => {
      const batch = openSeason(book.records).batch(idOf('T-14'));
      return batch && batchView(batch).oxygen;
    };
    expect(oxygen()).toMatchObject({ longestGapHours: null, readings: [] });
    book.write('batch.oxygenMeasured', '02 17:00', {
      batchId: idOf('T-14'),
      dissolvedOxygen: { value: 7.4, unit: 'mg/L' },
    });
    expect(oxygen()?.readings).toMatchObject([{ mgPerL: 7.4, temperatureC: null, saturationPercent: null }]);
  });

  it('a reading in a unit that is no concentration stays among the records and gives no figure', () => {
    const book = farm();
    open(book, 'T-14', '02 05:00');
    const dissolvedOxygen = { value: 80, unit: '%' };
    const written = book.any('batch.oxygenMeasured', '02 17:00', { batchId: idOf('T-14'), dissolvedOxygen });
    const batch = openSeason(book.records).batch(idOf('T-14'));
    expect(batch && batchView(batch).oxygen).toMatchObject({ lowestMgPerL: null, readings: [] });
    expect(batch?.records.map((each) => each.id)).toContain(written.id);
  });

  it('the timeline shows the corrected record as it stands, with what was written first', () => {
    const { opened, batch, wrong } = season();
    const lines = timeline(opened, batch);
    expect(lines.map((line) => line.occurredAt)).toEqual([...lines.map((line) => line.occurredAt)].sort());
    const line = lines.find((each) => each.recordId === wrong.id);
    expect(line).toMatchObject({
      state: 'amended',
      data: { dissolvedOxygen: { value: 7.4 } },
      history: [
        { kind: 'original', data: { dissolvedOxygen: { value: 74 } } },
        { kind: 'amended', reason: 'written wrongly' },
      ],
    });
  });

  it.each([
    ['how unsure its time is', { plusMinusMinutes: 15 }],
    ['the clock of the device', { enteredAt: '2026-06-02T05:40:00Z' }],
    ['who did it', { performedBy: idOf('Ines') }],
    ['that it was copied from paper', { origin: 'paper' }],
  ] as const)(
    'a line of the timeline tells %s where that was recorded, and has no such member elsewhere',
    (_, extra) => {
      const book = farm();
      open(book, 'T-14', '02 05:00');
      airOn(book, 'T-14', '02 05:35', extra);
      const opened = openSeason(book.records);
      const batch = opened.batch(idOf('T-14'));
      const [plain, told] = batch === undefined ? [] : timeline(opened, batch);
      expect(told).toMatchObject(extra);
      for (const name of ['plusMinusMinutes', 'enteredAt', 'performedBy', 'origin'])
        expect([name, plain && name in plain, told && name in told]).toEqual([name, false, name in extra]);
    },
  );

  it('a third of 10 lb is told in fifteen digits, a half as it is', () => {
    const told = (litres: number) => {
      const book = farm();
      fill(book, 'T-14', '02 05:30', 900);
      put(book, 'T-14', '02 06:00', 'compost', 10);
      draw(book, 'T-14', '03 06:00', 'load 1', litres);
      const batch = openSeason(book.records).batch(idOf('T-14'));
      return batch && batchView(batch).draws[0]?.lots.map(({ amount }) => JSON.stringify(amount));
    };
    expect(told(300)).toEqual(['3.33333333333333']);
    expect(told(600)).toEqual(['6.66666666666667']);
    expect(told(450)).toEqual(['5']);
  });

  it('a reading below what the meter shows is told as such; one that is what it says has no such mark', () => {
    const book = farm();
    open(book, 'T-14', '02 05:00');
    const read = (at: string, dissolvedOxygen: { value: number; unit: string; qualifier?: '<' }) =>
      book.write('batch.oxygenMeasured', at, { batchId: idOf('T-14'), dissolvedOxygen });
    read('02 17:00', { value: 0.5, unit: 'mg/L', qualifier: '<' });
    read('02 18:00', { value: 7, unit: 'mg/L' });
    const batch = openSeason(book.records).batch(idOf('T-14'));
    const [below, plain] = batch === undefined ? [] : batchView(batch).oxygen.readings;
    expect(below).toMatchObject({ mgPerL: 0.5, qualifier: '<' });
    expect(plain).toMatchObject({ mgPerL: 7 });
    expect(plain).not.toHaveProperty('qualifier');
  });

  it('of two hoses the one that ran last filled the tank, though it was opened first', () => {
    const book = farm();
    open(book, 'T-14', '02 05:00');
    const hose = (source: string, at: string, finishedAt: string) =>
      book.write('batch.filled', at, {
        ...{ batchId: idOf('T-14'), sourceId: idOf(source), volume: litresOf(500) },
        finishedAt: `2026-06-02T${finishedAt}:00Z`,
      });
    hose('rain tank', '02 05:10', '07:00');
    hose('city water', '02 05:20', '05:50');
    const batch = openSeason(book.records).batch(idOf('T-14'));
    expect(batch && batchView(batch)).toMatchObject({
      filledAt: '2026-06-02T07:00:00Z',
      sourceIds: [idOf('city water'), idOf('rain tank')],
    });
  });

  it('a record turned to another tank stays in view on the first, marked so', () => {
    const book = farm();
    open(book, 'T-14', '02 05:00');
    const added = put(book, 'T-14', '02 06:00', 'compost', 5);
    book.amend(added, '02 06:05', { ...added.data, batchId: idOf('T-15') });
    const opened = openSeason(book.records);
    const batch = opened.batch(idOf('T-14'));
    expect(batch?.ingredients).toEqual([]);
    expect(batch && timeline(opened, batch).map((line) => [line.type, line.turnedAway ?? false])).toEqual([
      ['batch.opened', false],
      ['batch.ingredientAdded', true],
    ]);
  });
});

import { describe, expect, it } from '@jest/globals';
import { brew, farm, id, loads, operation, seasonOf } from '../../testing/season.ts';
import { importRequest, previewImport, type ImportPreview } from './index.ts';

const season = seasonOf(...farm, ...brew, ...loads);
const now = Date.parse('2026-12-01T12:00:00Z');
const preview = (text: string, more: object = {}, over = season): ImportPreview =>
  previewImport(importRequest.parse({ as: 'readings', text, batchId: id('T-1'), ...more }), {
    season: over,
    operationId: operation,
    now,
    newId: () => id('never'),
  });
const recordsOf = ({ rows }: ImportPreview) => rows.flatMap(({ records }) => records);
const timesOf = (found: ImportPreview): string[] => recordsOf(found).map(({ occurredAt }) => occurredAt);
const valuesOf = (found: ImportPreview) =>
  recordsOf(found).map(({ data }) => Reflect.get(Object(Reflect.get(Object(data), 'dissolvedOxygen')), 'value'));
const problemsOf = ({ rows }: ImportPreview) =>
  rows.flatMap(({ line, problems }) => problems.map(({ column, detail }) => [line, column, detail]));

/** T-1 was opened on 20 April 08:00 and closed on 21 April 20:00, in New York. */
const file = (...lines: string[]): string => ['Date Time,DO (mg/L),Temp (°F)', ...lines].join('\n');

describe('a logger’s file', () => {
  it('becomes oxygen readings of the batch, in the units that its header says, from the instrument', () => {
    const found = preview(file('2026-04-20 10:00:00,8.1,64.2', '2026-04-20 10:15:00,8.0,'), {
      instrumentId: id('probe'),
    });
    expect(problemsOf(found)).toEqual([]);
    expect(recordsOf(found)).toEqual([
      expect.objectContaining({
        type: 'batch.oxygenMeasured',
        occurredAt: '2026-04-20T10:00:00-04:00',
        origin: 'instrument',
        data: {
          batchId: id('T-1'),
          dissolvedOxygen: { value: 8.1, unit: 'mg/L' },
          temperature: { value: 64.2, unit: '[degF]' },
          instrumentId: id('probe'),
        },
      }),
      expect.objectContaining({ data: expect.not.objectContaining({ temperature: expect.anything() }) }),
    ]);
  });

  it('asks for the batch and for units that nothing tells; percent of saturation is not taken for mg/L', () => {
    const bare = 'time,DO,temp\n2026-04-20 10:00,8.1,64';
    expect(preview(bare, { batchId: undefined }).asks).toEqual([
      'Name the batch that the readings are of.',
      expect.stringContaining('In what unit is “DO”'),
      expect.stringContaining('In what unit is “temp”'),
    ]);
    expect(preview(bare, { batchId: id('nothing') }).asks[0]).toContain('The batch is not known');
    const said = preview(bare, { units: { dissolvedOxygen: 'ppm', temperature: 'F' } });
    expect(recordsOf(said)[0]?.data).toMatchObject({
      dissolvedOxygen: { value: 8.1, unit: 'mg/L' },
      temperature: { value: 64, unit: '[degF]' },
    });
    expect(preview('time,DO (% sat)\n2026-04-20 10:00,88').asks).toEqual([
      expect.stringContaining('percent of saturation'),
    ]);
    expect(preview('time,DO (gal)\n2026-04-20 10:00,88').asks).toEqual([
      expect.stringContaining('“gal” is no unit of dissolved oxygen'),
    ]);
  });

  it('has its header found below what the logger says about itself, and date and time in two columns', () => {
    const found = preview(
      'Logger 20554\nExported by: nobody\n\nDate,Time,DO [mg/L]\n4/20/2026,10:00 AM,8.1\n4/20/2026,1:30:30 PM,7.9',
    );
    expect(timesOf(found)).toEqual(['2026-04-20T10:00:00-04:00', '2026-04-20T13:30:30-04:00']);
    expect(found.rows.map(({ line }) => line)).toEqual([5, 6]);
  });

  it('reports gaps against the usual distance', () => {
    const found = preview(
      file(
        '2026-04-20 10:00,8,',
        '2026-04-20 10:15,8,',
        '2026-04-20 10:30,8,',
        '2026-04-20 14:00,7,',
        '2026-04-20 14:15,7,',
      ),
    );
    expect(found.notes).toEqual([
      expect.stringMatching(
        /^No reading from 2026-04-20 10:30.* to 2026-04-20 14:00.* \(3 h 30 min\); usually there is one every 15 min\.$/,
      ),
    ]);
  });

  it('takes a repeated reading once, and a rival one of the same time not at all', () => {
    const found = preview(file('2026-04-20 10:00,8,64', '2026-04-20 10:00,8,64', '2026-04-20 10:00,7,64'));
    expect(found.rows.map(({ state }) => state)).toEqual(['good', 'leftOut', 'wrong']);
    expect(found.notes).toEqual(['1 reading is there a second time: taken once.']);
    expect(problemsOf(found)).toEqual([[4, null, 'says something else for the same time as line 2']]);
  });

  it('leaves out what lies before the batch was opened or after it was closed, unless told otherwise', () => {
    const text = file('2026-04-20 07:59,8,', '2026-04-20 08:00,8,', '2026-04-21 20:00,8,', '2026-04-21 20:01,8,');
    const found = preview(text);
    expect(found.counts).toEqual({ good: 2, known: 0, leftOut: 2, wrong: 0 });
    expect(found.notes[0]).toMatch(/^2 readings are outside 2026-04-20 08:00.* – 2026-04-21 20:00/);
    expect(preview(text, { from: '2026-04-20T00:00:00-04:00', to: '2026-04-22T00:00:00-04:00' }).counts.good).toBe(4);
  });

  it('thinned keeps the lowest of each stretch: no low reading is lost', () => {
    const lines = Array.from(
      { length: 60 },
      (_, minute) => `2026-04-20 10:${String(minute).padStart(2, '0')},${minute === 17 ? 5.2 : 8},`,
    );
    const found = preview(file(...lines), { everyMinutes: 30 });
    expect(found.counts).toEqual({ good: 2, known: 0, leftOut: 58, wrong: 0 });
    expect(valuesOf(found)).toEqual([5.2, 8]);
    expect(timesOf(found)[0]).toBe('2026-04-20T10:17:00-04:00');
  });

  it('what a probe writes instead of a figure is a problem of that row only', () => {
    const found = preview(
      file(
        '2026-04-20 10:00,---,64',
        '2026-04-20 10:15,-888.88,64',
        '2026-04-20 10:30,,64',
        'later,8,64',
        '2026-04-20 10:45,8,64',
      ),
    );
    expect(found.rows.map(({ state }) => state)).toEqual(['wrong', 'wrong', 'wrong', 'wrong', 'good']);
    expect(problemsOf(found).map(([line, column]) => [line, column])).toEqual([
      [2, 'DO (mg/L)'],
      [3, null],
      [4, 'DO (mg/L)'],
      [5, 'Date Time'],
    ]);
  });

  it('taken twice is recorded once', () => {
    const text = file('2026-04-20 10:00,8.1,64.2');
    const [sent] = recordsOf(preview(text));
    expect(sent).toBeDefined();
    expect(recordsOf(preview(text))).toEqual([sent]);
    const record = [
      'batch.oxygenMeasured',
      '04-20 10:00',
      Object(sent?.data),
      { id: sent?.id ?? '', origin: 'instrument' },
    ] as const;
    expect(preview(text, {}, seasonOf(...farm, ...brew, record)).rows.map(({ state }) => state)).toEqual(['known']);
  });
});

describe('a logger’s clock', () => {
  const wide = { from: '2026-01-01T00:00:00-05:00', to: '2026-11-30T00:00:00-05:00' };

  it('that follows summer time lives one hour twice in autumn: the rows go on from each other', () => {
    const found = preview(
      file(
        '2026-11-01 01:00,8,',
        '2026-11-01 01:30,8,',
        '2026-11-01 01:00,7,',
        '2026-11-01 01:30,7,',
        '2026-11-01 02:00,7,',
      ),
      wide,
    );
    expect(timesOf(found)).toEqual([
      '2026-11-01T01:00:00-04:00',
      '2026-11-01T01:30:00-04:00',
      '2026-11-01T01:00:00-05:00',
      '2026-11-01T01:30:00-05:00',
      '2026-11-01T02:00:00-05:00',
    ]);
  });

  it('that keeps winter time all year is read by its offset; an hour that was skipped is a problem without one', () => {
    const text = file('2026-03-08 02:30,8,', '2026-06-01 12:00,8,');
    expect(timesOf(preview(text, { ...wide, offset: '-05:00' }))).toEqual([
      '2026-03-08T02:30:00-05:00',
      '2026-06-01T12:00:00-05:00',
    ]);
    expect(problemsOf(preview(text, wide))).toEqual([
      [2, 'Date Time', expect.stringContaining('an hour that the clocks skipped')],
    ]);
  });

  it('that writes its offset is taken at its word', () => {
    expect(timesOf(preview('timestamp,DO (mg/L)\n2026-04-20T14:00:00Z,8'))).toEqual(['2026-04-20T14:00:00Z']);
  });
});

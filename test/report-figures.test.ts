import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Clock } from '@furrowmark/api';
import geographiclib from 'geographiclib-geodesic';
import { DataSource } from 'typeorm';
import { Book, type Row } from './report-figures/book.ts';
import { generatedSeason, type GeneratedSeason } from './report-figures/season.ts';
import { testDatabase } from './support/database.ts';
import { TestService, type TestOperation } from './support/service.ts';

/*
 * The figures that reports print against a second computation: SQL over the stored bytes of the log (book.ts), on seasons
 * that a seed decides. The service reads them over HTTP as any program would, as JSON of the same content that is printed.
 */
const clock: Clock = { now: () => Date.parse('2026-11-20T15:00:00Z') };
let service: TestService;
let owner: DataSource;
let book: Book;
beforeAll(async () => {
  service = await TestService.start({ clock });
  const { databaseUrl } = await testDatabase();
  const url = databaseUrl ?? service.service.database.embedded?.ownerUrl ?? '';
  owner = await new DataSource({ type: 'postgres', url, extra: { max: 1 } }).initialize();
  book = new Book(owner);
}, 60_000);
afterAll(async () => {
  await owner.destroy();
  await service.close();
});

const seeds = (process.env['FIGURE_SEEDS'] ?? '1,2,3,4,5,6').split(',').map(Number);
const periods = [
  ['2026-01-01', '2026-11-20'],
  ['2026-05-16', '2026-08-02'],
] as const;

type Json = Record<string, unknown>;
interface Table {
  readonly kind: string;
  readonly name: string;
  readonly rows: readonly Json[];
  readonly total?: Json;
}

describe.each(seeds)('the figures of season %d', (seed) => {
  let season: GeneratedSeason;
  let op: TestOperation;
  beforeAll(async () => {
    season = generatedSeason(seed);
    op = await service.operation();
    for (let from = 0; from < season.records.length; from += 100) {
      const answer = await service.append(op.operationId, op.tokens.manager, season.records.slice(from, from + 100));
      expect(answer.json.results.filter(({ status }: { status: string }) => status !== 'recorded')).toEqual([]);
    }
    await book.open(op.operationId);
  }, 60_000);

  async function tables(kind: string, asked: Record<string, string>): Promise<Table[]> {
    const query = new URLSearchParams(asked).toString();
    const path = `/api/v1/operations/${op.operationId}/reports/${kind}.json?${query}`;
    const answer = await service.get(path, op.tokens.inspector);
    expect([kind, answer.status]).toEqual([kind, 200]);
    return answer.json.blocks.filter((block: { kind: string }) => block.kind === 'table');
  }
  async function table(kind: string, asked: Record<string, string>, name: string): Promise<Table> {
    const found = (await tables(kind, asked)).find((each) => each.name === name);
    if (found === undefined) throw new Error(`${kind} has no table ${name}`);
    return found;
  }
  /** Only the columns that the second computation has, as numbers where they are numbers. */
  const like = (rows: readonly Json[], expected: readonly Row[]): Json[] =>
    rows.map((row) => Object.fromEntries(Object.keys(expected[0] ?? {}).map((key) => [key, row[key] ?? null])));
  const numbers = (rows: readonly Row[]): Json[] =>
    rows.map((row) =>
      Object.fromEntries(
        Object.entries(row).map(([key, value]) => [
          key,
          value !== null && /^-?\d+(\.\d+)?$/.test(value) ? Number(value) : value,
        ]),
      ),
    );
  const expectRows = (rows: readonly Json[], expected: readonly Row[]): void => {
    expect(like(rows, expected)).toEqual(numbers(expected));
  };
  const sums = (rows: readonly Json[], total: Json | undefined, key: string): void => {
    const sum = rows.reduce((all, row) => all + Number(row[key] ?? 0), 0);
    expect([key, Number(total?.[key])]).toEqual([key, Number(sum.toFixed(6))]);
  };

  it.each(periods)('mass balance of %s to %s: lots, tea and harvests', async (from, to) => {
    const lots = await book.massBalance(from, to);
    expect(lots.length).toBeGreaterThan(3);
    expectRows((await table('mass-balance', { from, to }, 'inputs')).rows, lots);
    const tea = await table('mass-balance', { from, to }, 'tea');
    expectRows(tea.rows, await book.tea(from, to));
    for (const key of ['filled', 'putBack', 'drawn', 'supplied', 'lost', 'remaining', 'unaccounted'])
      sums(tea.rows, tea.total, key);
  });

  it('batch by batch: the account of its volume; brew, hold and last reading of each draw', async () => {
    const account = await book.tea('2026-01-01', '2026-11-20');
    for (const [code, batch] of Object.entries(season.batches)) {
      const printed = await tables('batch-record', { batch });
      const rows = (name: string): readonly Json[] => printed.find((each) => each.name === name)?.rows ?? [];
      const lines = rows('volume').map(({ volume }) => Math.abs(Number(volume)));
      const own = account.find((row) => row['batch'] === code);
      const kinds = ['filled', 'putBack', 'drawn', 'supplied', 'lost', 'remaining'];
      // Here what was lost and what was thrown away are lines of their own.
      const [filled, putBack, drawn, supplied, lost = NaN, disposed = NaN, remaining] = lines;
      expect([code, filled, putBack, drawn, supplied, lost + disposed, remaining]).toEqual([
        code,
        ...kinds.map((kind) => Number(own?.[kind])),
      ]);
      const seconds = (at: unknown): number | null => (at === null ? null : Date.parse(String(at)) / 1000);
      const first = (text: unknown): number | null => {
        const found = /^-?[\d,.]+/.exec(String(text));
        return found === null ? null : Number(found[0].replaceAll(',', ''));
      };
      expectRows(
        rows('draws').map(({ drawnAt, appliedUntil, volume, brewHours, holdHours, lastOxygenMinutes }) => ({
          ...{ volume, drawn: seconds(drawnAt), until: seconds(appliedUntil), brew: first(brewHours) },
          ...{ hold: first(holdHours), oxygen: first(lastOxygenMinutes) },
        })),
        (await book.draws(batch)).map(({ brewWord: _, holdWord: __, ...figures }) => figures),
      );
    }
  });

  it('the tank sheet says what is known of each batch already', async () => {
    const sheets = await book.sheets();
    expect(sheets.length).toBe(6);
    for (const { batch, vessel, filled } of sheets) {
      const path = `/api/v1/operations/${op.operationId}/reports/tank-sheet.json?batch=${season.batches[String(batch)] ?? ''}`;
      const { json } = await service.get(path, op.tokens.inspector);
      const { items } = json.blocks.find(({ kind }: { kind: string }) => kind === 'facts');
      const said = new Map<string, string>(items.map(({ term, value }: Record<string, string>) => [term, value]));
      expect([said.get('Batch'), said.get('Tank')]).toEqual([batch, vessel]);
      expect(Number.parseFloat(said.get('Filled')?.replace(',', '') ?? '')).toBe(Number(filled));
      expect(said.get('Filled')).toMatch(/ gal$/);
    }
  });

  it('brew and hold of each draw are judged as their hours say', async () => {
    for (const batch of Object.values(season.batches)) {
      const { json } = await service.get(`/api/v1/operations/${op.operationId}/batches/${batch}`, op.tokens.inspector);
      const said = (rule: string): string[] =>
        json.outcomes
          .filter(({ ruleId }: { ruleId: string }) => ruleId === rule)
          .map(({ outcome }: { outcome: string }) => outcome)
          .toSorted();
      const draws = await book.draws(batch);
      const words = (rows: readonly Row[], member: string) => rows.map((row) => row[member]).toSorted();
      expect(said('brew-minimum')).toEqual(words(draws, 'brewWord'));
      expect(said('hold-maximum')).toEqual(words(draws, 'holdWord'));
    }
  });

  it('traceability events move what was recorded, thing by thing', async () => {
    const path = `/api/v1/operations/${op.operationId}/reports/traceability-events.jsonld?from=2026-01-01&to=2026-11-20`;
    const { json } = await service.get(path, op.tokens.inspector);
    const amounts = new Map<string, number>();
    // Kilograms and litres by UNECE Recommendation 20: pound, ounce (avoirdupois), kilogram, US gallon, litre.
    const base: Record<string, number> = {
      ...{ LBR: 0.45359237, ONZ: 0.45359237 / 16, KGM: 1, GLL: 3.785411784, LTR: 1 },
    };
    interface Amount {
      readonly epcClass: string;
      readonly quantity: number;
      readonly uom: string;
    }
    const ways = { quantityList: 'of', inputQuantityList: 'in', outputQuantityList: 'out' } as const;
    for (const event of json.epcisBody.eventList) {
      if (event.errorDeclaration !== undefined) continue;
      for (const [list, way] of Object.entries(ways)) {
        const moved: readonly Amount[] = event[list] ?? [];
        for (const { epcClass, quantity, uom } of moved) {
          const key = `${event.bizStep} ${way} ${epcClass.replace('urn:uuid:', '')}`;
          amounts.set(key, (amounts.get(key) ?? 0) + quantity * (base[uom] ?? NaN));
        }
      }
    }
    const expected = (await book.moved()).map(({ step, way, thing, amount }) => [
      `${step} ${way} ${thing}`,
      Number(amount),
    ]);
    expect([...amounts].map(([key, amount]) => [key, Number(amount.toFixed(3))]).toSorted()).toEqual(
      expected.toSorted(),
    );
  });

  it.each(['2026-03-01', '2026-06-15', '2026-11-20'])('stock at the end of %s', async (on) => {
    expectRows((await table('stock', { on }, 'stock')).rows, await book.stock(on));
  });

  it.each(periods)('applications of %s to %s, field by field', async (from, to) => {
    const expected = await book.applications(from, to);
    const printed = await tables('season-applications', { from, to });
    const rows = printed.flatMap(({ name, rows: here }) =>
      here.map((row): Json => ({ ...row, field: name.replace('field-', '') })),
    );
    expectRows(rows, expected);
    for (const each of printed) sums(each.rows, each.total, 'volume');
  });

  it('applications on each harvest since planting', async () => {
    for (const harvest of Object.values(season.harvests)) {
      const { rows } = await table('harvest-applications', { harvest }, 'applications');
      expectRows(rows, await book.harvestApplications(harvest));
    }
  });

  it.each(periods)('where the harvests of %s to %s went', async (from, to) => {
    expectRows((await table('harvest-whereabouts', { from, to }, 'harvests')).rows, await book.whereabouts(from, to));
  });

  it.each([
    ['water-log', ['source.registered', 'batch.chlorineMeasured']],
    ['cleaning-log', ['vessel.cleaned']],
    ['calibration-log', ['instrument.checked']],
    ['equipment-use-log', ['equipment.used', 'application.made']],
    ['training', ['person.trained']],
  ])('%s lists each record of its kinds once', async (kind, types) => {
    for (const [from, to] of periods) {
      const { rows } = await table(kind, { from, to }, kind);
      expect(rows.map(({ seq }) => seq).toSorted((a, b) => Number(a) - Number(b))).toEqual(
        await book.numbersOf(types, from, to),
      );
    }
  });

  it('changes list each record that was amended or struck', async () => {
    const { rows } = await table('changes', {}, 'corrections');
    expect(rows.map(({ seq }) => seq)).toEqual(await book.corrected());
  });

  it('own compost: turnings and temperatures', async () => {
    const printed = await tables('own-compost', { from: '2026-01-01', to: '2026-11-20' });
    const rows = (await book.piles()).map(({ pile }) => {
      const named = (name: string): readonly Json[] =>
        printed.find((each) => each.name === `${name}-${pile}`)?.rows ?? [];
      return {
        pile,
        turnings: String(named('turnings').filter(({ type }) => type === 'pile.turned').length),
        temperatures: named('temperatures')
          .map(({ lowestF, highestF }) => `${Number(lowestF)}–${Number(highestF)}`)
          .join(' '),
      };
    });
    expect(rows).toEqual(await book.piles());
  });

  it.each(periods)('days on which each material was used, %s to %s', async (from, to) => {
    const { rows } = await table('input-list', { from, to }, 'inputs');
    expectRows(rows, await book.daysUsed(from, to));
  });

  it('tank by tank, the days in use and the idle days between', async () => {
    const printed = await tables('tank-calendar', { from: '2026-01-01', to: '2026-11-20' });
    const rows = printed.flatMap(({ name, rows: here }) =>
      here.map((row): Json => ({ ...row, tank: name.replace('tank-', '') })),
    );
    expectRows(
      rows.filter(({ daysInUse }) => daysInUse !== null),
      await book.tanks(),
    );
    for (const each of printed) {
      sums(each.rows, each.total, 'daysInUse');
      sums(each.rows, each.total, 'idleDays');
    }
  });

  it.each(periods)('land, neighbours and what reached a field, %s to %s', async (from, to) => {
    const asked = { from, to };
    const rows = async (name: string) => (await table('neighbours-and-buffers', asked, name)).rows;
    // The middle of a rectangle may fall on half of the last place: one of it off, either way.
    const middles = (text: unknown): number[] => (text === null ? [] : String(text).split(', ').map(Number));
    const fields = await rows('fields');
    const land = await book.land();
    expectRows(
      fields,
      land.map(({ centre: _, ...rest }) => rest),
    );
    for (const [n, { centre }] of land.entries())
      for (const [i, degrees] of middles(centre).entries())
        expect(Math.abs((middles(fields[n]?.['centre'])[i] ?? NaN) - degrees)).toBeLessThan(1.1e-5);
    expectRows(await rows('exposures'), await book.exposures(from, to));

    const apart = (await book.neighbours()).map(({ x1, x2, y1, y2, field, neighbour, neighbourStatus, buffer }) => {
      // The geodesic on the WGS 84 ellipsoid, by an outside library.
      const { s12 = NaN } = geographiclib.Geodesic.WGS84.Inverse(Number(y1), Number(x1), Number(y2), Number(x2));
      return { field, neighbour, neighbourStatus, buffer, metres: s12 };
    });
    const named = ({ field, neighbour }: { field?: unknown; neighbour?: unknown }) =>
      `${String(field)} ${String(neighbour)}`;
    const printed = await rows('neighbours');
    // Within 60 m; what lies right at it may be told either way, for the report measures on a sphere.
    expect(printed.map(named)).toEqual(expect.arrayContaining(apart.filter(({ metres }) => metres < 59.5).map(named)));
    for (const row of printed) {
      const found = apart.find((pair) => named(pair) === named(row));
      expect(found).toMatchObject({ neighbourStatus: row['neighbourStatus'], buffer: row['buffer'] });
      expect(Math.abs((found?.metres ?? NaN) - Number(row['metres']))).toBeLessThan(0.9);
      expect(found?.metres).toBeLessThan(60.9);
    }
  });

  it.each(periods)('shipments on the traceability list, %s to %s', async (from, to) => {
    const { rows } = await table('traceability-list', { from, to }, 'shipping');
    const reference = (row: Json): string => String(Object.values(row).at(-1));
    expect(rows.map(reference).toSorted()).toEqual(
      (await book.shipped(from, to)).map((row) => row['reference']).toSorted(),
    );
  });

  it('lots, batches, fields, plantings, harvests and shipments that each lot reached', async () => {
    for (const lot of Object.values(season.lots)) {
      const printed = await tables('lot-trace', { lot });
      // The account of the lot says which fields got how much of it; the list beside it, what else was reached.
      const reached = printed.flatMap(({ name, rows }) =>
        name === 'account'
          ? rows.filter(({ what }) => what === 'reached the field').map(({ place }) => `field ${String(place)}`)
          : name === 'reached'
            ? rows.map(({ kind, code }) => `${String(kind)} ${String(code)}`)
            : [],
      );
      expect([lot, reached.toSorted()]).toEqual([
        lot,
        (await book.reached(lot)).map(({ kind, code }) => `${kind} ${code}`).toSorted(),
      ]);
    }
  });
});

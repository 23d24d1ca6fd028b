import type { DataSource } from 'typeorm';

/** One row of figures, as PostgreSQL counted them: numbers as text, so that nothing is rounded on the way. */
export type Row = Readonly<Record<string, string | null>>;

/**
 * A second account of an operation's season in SQL, straight from the stored bytes of its log: no fold, no facts, no
 * arithmetic of the service. Written from the record types' descriptions, so that it can disagree.
 * Conversions: NIST Handbook 44 (2024), Appendix C: 1 lb = 0.45359237 kg, 1 oz = 1/16 lb. Volumes stay in US gallons and
 * areas in acres, as the generated seasons write them.
 */
export class Book {
  constructor(
    private readonly owner: DataSource,
    private readonly zone = 'America/New_York',
  ) {}

  /** Reads the log of an operation: each record as it stands, amended or struck. */
  async open(operationId: string): Promise<void> {
    await this.owner.query('DROP TABLE IF EXISTS sent, standing, movement, load CASCADE');
    await this.owner.query(
      `CREATE TEMP TABLE sent AS
       SELECT seq, record_id::text AS id, type, occurred_at AS at, convert_from(bytes, 'UTF8')::jsonb -> 'data' AS data
       FROM log_entry WHERE operation_id = $1`,
      [operationId],
    );
    await this.owner.query(
      `CREATE TEMP TABLE standing AS
       SELECT sent.seq, sent.id, sent.type, sent.at, coalesce(amended.data -> 'data', sent.data) AS data
       FROM sent LEFT JOIN sent amended ON amended.type = 'record.amended' AND amended.data ->> 'recordId' = sent.id
       WHERE sent.type NOT LIKE 'record.%'
         AND NOT EXISTS (SELECT FROM sent s WHERE s.type = 'record.struck' AND s.data ->> 'recordId' = sent.id)`,
    );
    await this.owner.query(
      `CREATE TEMP TABLE movement AS
       WITH inKg(unit, kg) AS (VALUES ('[lb_av]', 0.45359237), ('[oz_av]', 0.45359237 / 16), ('kg', 1)),
       moved(lot, what, at, quantity) AS (
         SELECT data ->> 'lotId', 'received', at, data -> 'quantity' FROM standing
           WHERE type IN ('lot.received', 'pile.finished')
         UNION ALL SELECT data ->> 'lotId', 'used', at, data -> 'quantity' FROM standing
           WHERE type IN ('batch.ingredientAdded', 'pile.added')
         UNION ALL SELECT put ->> 'lotId', 'used', at, put -> 'quantity'
           FROM standing, jsonb_array_elements(data -> 'inputs') put WHERE type = 'pile.started'
         UNION ALL SELECT put ->> 'lotId', 'used', (data ->> 'startedAt')::timestamptz, put -> 'quantity'
           FROM standing, jsonb_array_elements(data -> 'tankMix') put WHERE type = 'application.made'
         UNION ALL SELECT data ->> 'lotId', 'disposed', at, data -> 'quantity' FROM standing WHERE type = 'lot.disposed'
         UNION ALL SELECT data ->> 'lotId', 'counted', at, data -> 'quantity' FROM standing WHERE type = 'lot.counted'
       ),
       unit_of(lot, code, unit) AS (
         SELECT data ->> 'lotId', data ->> 'code', data -> 'quantity' ->> 'unit' FROM standing
         WHERE type IN ('lot.received', 'pile.finished')
       )
       SELECT code, what, at, (at AT TIME ZONE '${this.zone}')::date AS day,
         (quantity ->> 'value')::numeric * written.kg / own.kg AS amount,
         CASE what WHEN 'received' THEN 1 WHEN 'counted' THEN 0 ELSE -1 END AS sign
       FROM moved JOIN unit_of USING (lot)
       JOIN inKg written ON written.unit = quantity ->> 'unit' JOIN inKg own ON own.unit = unit_of.unit`,
    );
    await this.owner.query(
      `CREATE TEMP TABLE load AS
       SELECT standing.id AS record, drawn.data ->> 'batchId' AS batch,
         (drawn.data -> 'volume' ->> 'value')::numeric - coalesce((
           SELECT sum((ended.data -> 'volume' ->> 'value')::numeric) FROM standing ended
           WHERE ended.type = 'draw.ended' AND ended.data ->> 'drawId' = put ->> 'drawId'), 0) AS gallons,
         (drawn.data -> 'volume' ->> 'value')::numeric AS drawn
       FROM standing, jsonb_array_elements(standing.data -> 'draws') put
       CROSS JOIN LATERAL (
         SELECT put AS data WHERE put ? 'batchId'
         UNION ALL SELECT d.data FROM standing d WHERE d.type = 'batch.drawn' AND d.data ->> 'drawId' = put ->> 'drawId'
       ) drawn WHERE standing.type = 'application.made'`,
    );
  }

  rows(sql: string, ...values: readonly unknown[]): Promise<Row[]> {
    return this.owner.query(sql, [...values]);
  }

  /** Lot by lot: opening, received, used, disposed, closing, counted at last, count less book. */
  massBalance(from: string, to: string): Promise<Row[]> {
    return this.rows(
      `WITH sums AS (
         SELECT code,
           round(coalesce(sum(sign * amount) FILTER (WHERE day < $1), 0), 3) AS opening,
           round(coalesce(sum(amount) FILTER (WHERE what = 'received' AND day BETWEEN $1 AND $2), 0), 3) AS received,
           round(coalesce(sum(amount) FILTER (WHERE what = 'used' AND day BETWEEN $1 AND $2), 0), 3) AS used,
           round(coalesce(sum(amount) FILTER (WHERE what = 'disposed' AND day BETWEEN $1 AND $2), 0), 3) AS disposed
         FROM movement GROUP BY code),
       count AS (
         SELECT DISTINCT ON (code) code, at, round(amount, 3) AS counted,
           (SELECT sum(sign * amount)
              FROM movement m WHERE m.code = movement.code AND m.at < movement.at) AS book, amount
         FROM movement WHERE what = 'counted' AND day BETWEEN $1 AND $2 ORDER BY code, at DESC)
       SELECT sums.code AS lot, opening, received, used, disposed, opening + received - used - disposed AS closing,
         counted, round(count.amount - book, 3) AS "countedLessBook"
       FROM sums LEFT JOIN count USING (code)
       WHERE opening <> 0 OR received <> 0 OR used <> 0 OR disposed <> 0 ORDER BY sums.code`,
      from,
      to,
    );
  }

  /** What was in stock at the end of a day. */
  stock(on: string): Promise<Row[]> {
    return this.rows(
      `SELECT code AS lot, round(sum(sign * amount), 3) AS balance
       FROM movement WHERE day <= $1 GROUP BY code
       HAVING round(sum(sign * amount), 3) <> 0 ORDER BY 1`,
      on,
    );
  }

  /** Batches filled in a period: gallons filled, put back, drawn, supplied, lost and disposed, remaining, not accounted for. */
  tea(from: string, to: string): Promise<Row[]> {
    return this.rows(
      `WITH batch AS (
         SELECT data ->> 'batchId' AS id, data ->> 'code' AS code FROM standing WHERE type = 'batch.opened'),
       volume AS (
         SELECT data ->> 'batchId' AS id, type, (data -> 'volume' ->> 'value')::numeric AS gallons,
           (at AT TIME ZONE '${this.zone}')::date AS day
         FROM standing WHERE type IN ('batch.filled', 'batch.drawn', 'tea.supplied', 'batch.lost', 'batch.disposed')
         UNION ALL SELECT put ->> 'batchId', 'batch.drawn', (put -> 'volume' ->> 'value')::numeric, NULL
           FROM standing, jsonb_array_elements(data -> 'draws') put WHERE type = 'application.made' AND put ? 'batchId'
         UNION ALL SELECT drawn.data ->> 'batchId', 'putBack', (ended.data -> 'volume' ->> 'value')::numeric, NULL
           FROM standing ended JOIN standing drawn ON drawn.type = 'batch.drawn' AND drawn.data ->> 'drawId' = ended.data ->> 'drawId'
           WHERE ended.type = 'draw.ended' AND ended.data ->> 'fate' = 'putBack'
         UNION ALL SELECT data ->> 'batchId', 'remaining', (data -> 'remainingVolume' ->> 'value')::numeric, NULL
           FROM standing WHERE type = 'batch.closed'),
       sums AS (
         SELECT id,
           round(coalesce(sum(gallons) FILTER (WHERE type = 'batch.filled'), 0), 1) AS filled,
           round(coalesce(sum(gallons) FILTER (WHERE type = 'putBack'), 0), 1) AS "putBack",
           round(coalesce(sum(gallons) FILTER (WHERE type = 'batch.drawn'), 0), 1) AS drawn,
           round(coalesce(sum(gallons) FILTER (WHERE type = 'tea.supplied'), 0), 1) AS supplied,
           round(coalesce(sum(gallons) FILTER (WHERE type IN ('batch.lost', 'batch.disposed')), 0), 1) AS lost,
           round(coalesce(sum(gallons) FILTER (WHERE type = 'remaining'), 0), 1) AS remaining
         FROM volume GROUP BY id HAVING bool_or(type = 'batch.filled' AND day BETWEEN $1 AND $2))
       SELECT code AS batch, filled, "putBack", drawn, supplied, lost, remaining,
         filled + "putBack" - drawn - supplied - lost - remaining AS unaccounted
       FROM sums JOIN batch USING (id) ORDER BY code`,
      from,
      to,
    );
  }

  /** Each batch with its tank, and the gallons filled as printed. */
  sheets(): Promise<Row[]> {
    return this.rows(
      `SELECT b.data ->> 'code' AS batch, v.data ->> 'code' AS vessel,
         (SELECT round(sum((f.data -> 'volume' ->> 'value')::numeric), 1) FROM standing f
           WHERE f.type = 'batch.filled' AND f.data ->> 'batchId' = b.data ->> 'batchId') AS filled
       FROM standing b JOIN standing v ON v.type = 'vessel.registered' AND v.data ->> 'vesselId' = b.data ->> 'vesselId'
       WHERE b.type = 'batch.opened' ORDER BY 1`,
    );
  }

  /** Each application on each target: gallons as written, else by area of what was drawn less the rests. */
  readonly #applied = `
    SELECT data ->> 'code' AS application, (data ->> 'startedAt')::timestamptz AS started,
      target ->> 'fieldId' AS field, target ->> 'plantingId' AS planting, place,
      (target -> 'area' ->> 'value')::numeric AS area,
      coalesce((target -> 'volume' ->> 'value')::numeric, (SELECT sum(gallons) FROM load WHERE record = standing.id)
        * (target -> 'area' ->> 'value')::numeric
        / (SELECT sum((each -> 'area' ->> 'value')::numeric) FROM jsonb_array_elements(data -> 'targets') each)) AS gallons
    FROM standing, jsonb_array_elements(data -> 'targets') WITH ORDINALITY AS t(target, place)
    WHERE type = 'application.made'`;

  applications(from: string, to: string): Promise<Row[]> {
    return this.rows(
      `WITH applied AS (${this.#applied})
       SELECT field.data ->> 'code' AS field, to_char(started AT TIME ZONE '${this.zone}', 'YYYY-MM-DD') AS date, application,
         round(gallons, 1) AS volume, round(area, 2) AS area, round(gallons / area, 1) AS rate
       FROM applied JOIN standing field ON field.type = 'field.registered' AND field.data ->> 'fieldId' = applied.field
       WHERE (started AT TIME ZONE '${this.zone}')::date BETWEEN $1 AND $2
       ORDER BY 1, started, application, place`,
      from,
      to,
    );
  }

  /** Fields that are the same ground as each field: itself, what it lies within, what lies within it. */
  readonly #ground = `
    SELECT a.data ->> 'fieldId' AS field, b.data ->> 'fieldId' AS same
    FROM standing a, standing b WHERE a.type = 'field.registered' AND b.type = 'field.registered'
      AND (a.id = b.id OR a.data ->> 'parentId' = b.data ->> 'fieldId' OR b.data ->> 'parentId' = a.data ->> 'fieldId')`;

  /** Applications on a harvest: on its ground, from planting (where it names one) to harvest, not naming another planting. */
  harvestApplications(harvestId: string): Promise<Row[]> {
    return this.rows(
      `WITH applied AS (${this.#applied}), ground AS (${this.#ground})
       SELECT application, round(gallons, 1) AS volume
       FROM standing harvest JOIN ground ON ground.field = harvest.data ->> 'fieldId' JOIN applied ON applied.field = same
       LEFT JOIN standing planted ON planted.type = 'planting.started'
         AND planted.data ->> 'plantingId' = harvest.data ->> 'plantingId'
       WHERE harvest.type = 'harvest.made' AND harvest.data ->> 'harvestId' = $1 AND started <= harvest.at
         AND (planted.id IS NULL OR (started AT TIME ZONE '${this.zone}')::date >= (planted.data ->> 'plantedOn')::date)
         AND (planted.id IS NULL OR applied.planting IS NULL OR applied.planting = planted.data ->> 'plantingId')
       ORDER BY started, application, place`,
      harvestId,
    );
  }

  /**
   * Pairs of an organic or transition field and land of another status, neither within the other, with the two places where
   * they come nearest: the outlines of these seasons are upright rectangles. Longitudes and latitudes in degrees.
   */
  neighbours(): Promise<Row[]> {
    return this.rows(
      `WITH land AS (
         SELECT data ->> 'code' AS code, data ->> 'fieldId' AS id, data ->> 'parentId' AS parent, data ->> 'landStatus' AS status,
           coalesce(data ->> 'buffer', 'not recorded') AS buffer, min((corner ->> 0)::numeric) AS west,
           max((corner ->> 0)::numeric) AS east, min((corner ->> 1)::numeric) AS south, max((corner ->> 1)::numeric) AS north
         FROM standing, jsonb_array_elements(data -> 'boundary' -> 'coordinates' -> 0) corner
         WHERE type = 'field.registered' GROUP BY 1, 2, 3, 4, 5)
       SELECT a.code AS field, b.code AS neighbour, b.status AS "neighbourStatus", a.buffer,
         CASE WHEN a.east < b.west THEN a.east WHEN b.east < a.west THEN a.west ELSE greatest(a.west, b.west) END AS x1,
         CASE WHEN a.east < b.west THEN b.west WHEN b.east < a.west THEN b.east ELSE greatest(a.west, b.west) END AS x2,
         CASE WHEN a.north < b.south THEN a.north WHEN b.north < a.south THEN a.south ELSE greatest(a.south, b.south) END AS y1,
         CASE WHEN a.north < b.south THEN b.south WHEN b.north < a.south THEN b.north ELSE greatest(a.south, b.south) END AS y2
       FROM land a JOIN land b ON a.status <> b.status AND a.status <> 'conventional'
         AND b.parent IS DISTINCT FROM a.id AND a.parent IS DISTINCT FROM b.id ORDER BY 1, 2`,
    );
  }

  /** Fields by code with what is said of their land and the middle of their outline, latitude first. */
  land(): Promise<Row[]> {
    return this.rows(
      `SELECT data ->> 'code' AS field, data ->> 'landStatus' AS "landStatus", coalesce(data ->> 'buffer', 'not recorded') AS buffer,
         (SELECT coalesce(round((min((c ->> 1)::numeric) + max((c ->> 1)::numeric)) / 2, 5) || ', '
             || round((min((c ->> 0)::numeric) + max((c ->> 0)::numeric)) / 2, 5), NULL)
            FROM jsonb_array_elements(data -> 'boundary' -> 'coordinates' -> 0) c) AS centre
       FROM standing WHERE type = 'field.registered' ORDER BY 1`,
    );
  }

  /** What reached a field in a period. */
  exposures(from: string, to: string): Promise<Row[]> {
    return this.rows(
      `SELECT to_char(e.at AT TIME ZONE '${this.zone}', 'YYYY-MM-DD') AS date, f.data ->> 'code' AS field,
         e.data ->> 'substance' AS substance, e.data ->> 'how' AS how
       FROM standing e JOIN standing f ON f.type = 'field.registered' AND f.data ->> 'fieldId' = e.data ->> 'fieldId'
       WHERE e.type = 'field.exposed' AND (e.at AT TIME ZONE '${this.zone}')::date BETWEEN $1 AND $2 ORDER BY e.at`,
      from,
      to,
    );
  }

  /** Each harvest of a period: made, shipped and left in its own unit. */
  whereabouts(from: string, to: string): Promise<Row[]> {
    return this.rows(
      `WITH inKg(unit, kg) AS (VALUES ('[lb_av]', 0.45359237), ('[oz_av]', 0.45359237 / 16), ('kg', 1)),
       made AS (
         SELECT data ->> 'harvestId' AS id, data ->> 'code' AS code, at, (data -> 'quantity' ->> 'value')::numeric AS quantity, kg
         FROM standing JOIN inKg ON unit = data -> 'quantity' ->> 'unit' WHERE type = 'harvest.made'),
       sent_on AS (
         SELECT data ->> 'harvestId' AS id, sum((data -> 'quantity' ->> 'value')::numeric * kg) AS kg
         FROM standing JOIN inKg ON unit = data -> 'quantity' ->> 'unit' WHERE type = 'harvest.shipped' GROUP BY 1)
       SELECT code AS harvest, round(quantity, 1) AS quantity, round(coalesce(sent_on.kg, 0) / made.kg, 1) AS shipped,
         round(quantity - coalesce(sent_on.kg, 0) / made.kg, 1) AS rest
       FROM made LEFT JOIN sent_on USING (id)
       WHERE (at AT TIME ZONE '${this.zone}')::date BETWEEN $1 AND $2 ORDER BY at, code`,
      from,
      to,
    );
  }

  /** Tank by tank: from the day of the first fill to the day of closing, and how many days that is. */
  tanks(): Promise<Row[]> {
    return this.rows(
      `SELECT vessel.data ->> 'code' AS tank, batch.data ->> 'code' AS what,
         to_char(min(fill.at AT TIME ZONE '${this.zone}'), 'YYYY-MM-DD') AS "from",
         to_char(max(closed.at AT TIME ZONE '${this.zone}'), 'YYYY-MM-DD') AS "to",
         max((closed.at AT TIME ZONE '${this.zone}')::date) - min((fill.at AT TIME ZONE '${this.zone}')::date) + 1 AS "daysInUse"
       FROM standing batch
       JOIN standing vessel ON vessel.type = 'vessel.registered' AND vessel.data -> 'vesselId' = batch.data -> 'vesselId'
       JOIN standing fill ON fill.type = 'batch.filled' AND fill.data -> 'batchId' = batch.data -> 'batchId'
       JOIN standing closed ON closed.type = 'batch.closed' AND closed.data -> 'batchId' = batch.data -> 'batchId'
       WHERE batch.type = 'batch.opened' GROUP BY 1, 2 ORDER BY 1, 3`,
    );
  }

  /** Shipments of a period by their reference, with the quantity as written. */
  shipped(from: string, to: string): Promise<Row[]> {
    return this.rows(
      `SELECT made.data ->> 'code' AS lot, sent_on.data -> 'quantity' ->> 'value' AS quantity, sent_on.data ->> 'reference' AS reference
       FROM standing sent_on
       JOIN standing made ON made.type = 'harvest.made' AND made.data -> 'harvestId' = sent_on.data -> 'harvestId'
       WHERE sent_on.type = 'harvest.shipped' AND (sent_on.at AT TIME ZONE '${this.zone}')::date BETWEEN $1 AND $2
       ORDER BY sent_on.at, 3`,
      from,
      to,
    );
  }

  /** Numbers in the log of the records of some types in a period, struck ones too. */
  async numbersOf(types: readonly string[], from: string, to: string): Promise<number[]> {
    const rows = await this.rows(
      `SELECT seq FROM sent WHERE type = ANY($1) AND (at AT TIME ZONE '${this.zone}')::date BETWEEN $2 AND $3 ORDER BY seq`,
      types,
      from,
      to,
    );
    return rows.map(({ seq }) => Number(seq));
  }

  /** Numbers in the log of records that were amended or struck. */
  async corrected(): Promise<number[]> {
    const rows = await this.rows(
      `SELECT DISTINCT first.seq FROM sent first JOIN sent later ON later.type IN ('record.amended', 'record.struck')
         AND later.data ->> 'recordId' = first.id ORDER BY 1`,
    );
    return rows.map(({ seq }) => Number(seq));
  }

  /** Own piles: turnings, and each day's lowest and highest reading. */
  piles(): Promise<Row[]> {
    return this.rows(
      `SELECT pile.data ->> 'code' AS pile,
         (SELECT count(*) FROM standing t WHERE t.type = 'pile.turned' AND t.data -> 'pileId' = pile.data -> 'pileId') AS turnings,
         (SELECT string_agg(lowest || '–' || highest, ' ' ORDER BY at) FROM (
            SELECT m.at, min((each -> 'value' ->> 'value')::numeric) AS lowest, max((each -> 'value' ->> 'value')::numeric) AS highest
            FROM standing m, jsonb_array_elements(m.data -> 'temperatures') each
            WHERE m.type = 'pile.measured' AND m.data -> 'pileId' = pile.data -> 'pileId' GROUP BY m.id, m.at) days) AS temperatures
       FROM standing pile WHERE pile.type = 'pile.started' ORDER BY 1`,
    );
  }

  /**
   * Draw by draw of a batch: gallons, when drawn, when all of it was applied; hours from the first ingredient to the draw,
   * or to air off before it, and from air off to the end of the application; minutes since the last reading of oxygen. With
   * the words that the default limits give (brew 20 and 24 h; hold 8 h, over 2 h a check, which these seasons never have).
   */
  draws(batchId: string): Promise<Row[]> {
    return this.rows(
      `WITH drawn AS (
         SELECT data ->> 'drawId' AS draw, id AS record, at, (data -> 'volume' ->> 'value')::numeric AS volume
         FROM standing WHERE type = 'batch.drawn' AND data ->> 'batchId' = $1
         UNION ALL SELECT NULL, id, (data ->> 'startedAt')::timestamptz, (put -> 'volume' ->> 'value')::numeric
         FROM standing, jsonb_array_elements(data -> 'draws') put
         WHERE type = 'application.made' AND put ->> 'batchId' = $1),
       used AS (
         SELECT drawn.*, (
           SELECT max((a.data ->> 'finishedAt')::timestamptz) FROM standing a
           WHERE a.type = 'application.made' AND (a.id = drawn.record
             OR EXISTS (SELECT FROM jsonb_array_elements(a.data -> 'draws') put WHERE put ->> 'drawId' = drawn.draw))) AS until
         FROM drawn),
       batch AS (
         SELECT min(at) FILTER (WHERE type = 'batch.ingredientAdded') AS fed, max(at) FILTER (WHERE type = 'batch.airStopped') AS still
         FROM standing WHERE data ->> 'batchId' = $1)
       SELECT round(volume, 1) AS volume, extract(epoch FROM at)::int AS drawn, extract(epoch FROM until)::int AS until,
         round(extract(epoch FROM least(at, still) - fed) / 3600, 1) AS brew, round(extract(epoch FROM until - still) / 3600, 1) AS hold,
         (SELECT round(extract(epoch FROM used.at - max(o.at)) / 60) FROM standing o
          WHERE o.type = 'batch.oxygenMeasured' AND o.data ->> 'batchId' = $1 AND o.at <= used.at) AS oxygen,
         CASE WHEN fed IS NULL THEN 'unknown' WHEN least(at, still) - fed < interval '20 h' THEN 'broken'
           WHEN least(at, still) - fed < interval '24 h' THEN 'caution' ELSE 'met' END AS "brewWord",
         CASE WHEN until IS NULL THEN 'unknown' WHEN until - still > interval '8 h' THEN 'broken'
           WHEN until - still > interval '2 h' THEN 'caution' ELSE 'met' END AS "holdWord"
       FROM used, batch ORDER BY at, record`,
      batchId,
    );
  }

  /**
   * What traceability events move, thing by thing: kilograms of lots and harvests, litres of water and tea, by the
   * business step. 1 US gal = 3.785411784 L (NIST Handbook 44, Appendix C).
   */
  moved(): Promise<Row[]> {
    return this.rows(
      `WITH inBase(unit, base) AS (
         VALUES ('[lb_av]', 0.45359237), ('[oz_av]', 0.45359237 / 16), ('kg', 1), ('[gal_us]', 3.785411784)),
       said(step, way, thing, quantity) AS (
         SELECT 'receiving', 'of', data ->> 'lotId', data -> 'quantity' FROM standing WHERE type = 'lot.received'
         UNION ALL SELECT 'commissioning', 'out', data ->> 'lotId', data -> 'quantity' FROM standing WHERE type = 'pile.finished'
         UNION ALL SELECT 'commissioning', 'in', put ->> 'lotId', put -> 'quantity'
           FROM standing, jsonb_array_elements(data -> 'inputs') put WHERE type = 'pile.started'
         UNION ALL SELECT 'commissioning', 'in', data ->> 'lotId', data -> 'quantity' FROM standing
           WHERE type IN ('pile.added', 'batch.ingredientAdded')
         UNION ALL SELECT 'commissioning', way, thing, data -> 'volume' FROM standing,
           LATERAL (VALUES ('in', data ->> 'sourceId'), ('out', data ->> 'batchId')) AS each(way, thing) WHERE type = 'batch.filled'
         UNION ALL SELECT 'commissioning', 'of', data ->> 'harvestId', data -> 'quantity' FROM standing WHERE type = 'harvest.made'
         UNION ALL SELECT 'shipping', 'of', data ->> 'harvestId', data -> 'quantity' FROM standing WHERE type = 'harvest.shipped'
         UNION ALL SELECT 'shipping', 'of', data ->> 'batchId', data -> 'volume' FROM standing WHERE type = 'tea.supplied'
         UNION ALL SELECT 'destroying', 'of', data ->> 'lotId', data -> 'quantity' FROM standing WHERE type = 'lot.disposed'
         UNION ALL SELECT 'destroying', 'of', data ->> 'batchId', data -> 'volume' FROM standing
           WHERE type IN ('batch.disposed', 'batch.lost')
         UNION ALL SELECT 'destroying', 'of', drawn.data ->> 'batchId', ended.data -> 'volume'
           FROM standing ended JOIN standing drawn ON drawn.type = 'batch.drawn' AND drawn.data ->> 'drawId' = ended.data ->> 'drawId'
           WHERE ended.type = 'draw.ended' AND ended.data ->> 'fate' = 'dumped'
         UNION ALL SELECT 'other', 'of', put ->> 'lotId', put -> 'quantity'
           FROM standing, jsonb_array_elements(data -> 'tankMix') put WHERE type = 'application.made'
         UNION ALL SELECT 'other', 'of', batch, jsonb_build_object('value', gallons, 'unit', '[gal_us]') FROM load)
       SELECT step, way, thing, round(sum((quantity ->> 'value')::numeric * base), 3) AS amount
       FROM said JOIN inBase ON unit = quantity ->> 'unit' GROUP BY 1, 2, 3 ORDER BY 1, 2, 3`,
    );
  }

  /** Days on which each material was used in a period. */
  daysUsed(from: string, to: string): Promise<Row[]> {
    return this.rows(
      `SELECT material.data ->> 'code' AS material, count(DISTINCT day) FILTER (WHERE what = 'used') AS "daysUsed"
       FROM movement JOIN standing lot ON lot.type IN ('lot.received', 'pile.finished') AND lot.data ->> 'code' = code
       JOIN standing material ON material.type = 'material.registered' AND material.data -> 'materialId' = lot.data -> 'materialId'
       WHERE day BETWEEN $1 AND $2 GROUP BY 1 ORDER BY 1`,
      from,
      to,
    );
  }

  /**
   * What a lot reached, by kind and code: through own compost into lots made of it, into batches, onto plantings (those an
   * application names, else those planted on the ground by the day of its start), into harvests of the same ground that were made
   * after the start and do not name another planting than those, and with them away.
   */
  reached(lotId: string): Promise<Row[]> {
    return this.rows(
      `WITH RECURSIVE lots(id) AS (
         SELECT $1::text
         UNION SELECT made.data ->> 'lotId' FROM lots
         JOIN (
           SELECT data ->> 'pileId' AS pile, put ->> 'lotId' AS lot FROM standing, jsonb_array_elements(data -> 'inputs') put
             WHERE type = 'pile.started'
           UNION SELECT data ->> 'pileId', data ->> 'lotId' FROM standing WHERE type = 'pile.added'
         ) put ON put.lot = lots.id
         JOIN standing made ON made.type = 'pile.finished' AND made.data ->> 'pileId' = put.pile),
       ground AS (${this.#ground}),
       put AS (
         SELECT data ->> 'batchId' AS batch, at FROM standing
         WHERE type = 'batch.ingredientAdded' AND data ->> 'lotId' IN (SELECT id FROM lots)),
       applications AS (
         SELECT DISTINCT record FROM load JOIN standing a ON a.id = record JOIN put ON put.batch = load.batch AND put.at < a.at
         UNION SELECT a.id FROM standing a, jsonb_array_elements(a.data -> 'tankMix') mixed
           WHERE a.type = 'application.made' AND mixed ->> 'lotId' IN (SELECT id FROM lots)),
       targets AS (
         SELECT record, target ->> 'fieldId' AS field, target ->> 'plantingId' AS named, (data ->> 'startedAt')::timestamptz AS started
         FROM applications JOIN standing ON standing.id = record, jsonb_array_elements(data -> 'targets') target),
       plantings AS (
         SELECT data ->> 'plantingId' AS id, data ->> 'crop' AS crop, data ->> 'fieldId' AS field, (data ->> 'plantedOn')::date AS planted
         FROM standing WHERE type = 'planting.started'),
       onto AS (
         SELECT targets.*, plantings.id AS planting, crop FROM targets JOIN ground USING (field) JOIN plantings
           ON CASE WHEN named IS NULL THEN plantings.field = same AND planted <= (started AT TIME ZONE '${this.zone}')::date ELSE plantings.id = named END),
       into_harvest AS (
         SELECT h.data ->> 'harvestId' AS id, h.data ->> 'code' AS code FROM targets JOIN ground USING (field)
         JOIN standing h ON h.type = 'harvest.made' AND h.data ->> 'fieldId' = same AND h.at > started
           AND (NOT h.data ? 'plantingId'
             OR h.data ->> 'plantingId' IN (SELECT planting FROM onto WHERE onto.record = targets.record AND onto.field = targets.field)
             OR NOT EXISTS (SELECT FROM onto WHERE onto.record = targets.record AND onto.field = targets.field)))
       SELECT 'lot' AS kind, data ->> 'code' AS code FROM standing JOIN lots ON lots.id = data ->> 'lotId'
         WHERE type IN ('lot.received', 'pile.finished') AND lots.id <> $1
       UNION SELECT 'batch', data ->> 'code' FROM standing JOIN put ON put.batch = data ->> 'batchId' WHERE type = 'batch.opened'
       UNION SELECT 'planting', crop FROM onto
       UNION SELECT 'field', data ->> 'code' FROM standing JOIN targets ON field = data ->> 'fieldId' WHERE type = 'field.registered'
       UNION SELECT 'harvest', code FROM into_harvest
       UNION SELECT 'shipment', data ->> 'reference' FROM standing JOIN into_harvest ON into_harvest.id = data ->> 'harvestId'
         WHERE type = 'harvest.shipped'
       ORDER BY 1, 2`,
      lotId,
    );
  }
}

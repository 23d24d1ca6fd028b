import { asOf, localText, type Instant, type OpenSeason } from '@furrowmark/domain';
import type { Block, ReportContent } from '../content.ts';
import { unitNames, wordsOf, type Language, type Words } from '../words/index.ts';

/** What a report is told besides the season: the clock, the reader's language, the log as it stands. */
export interface Given {
  readonly now: Instant;
  readonly language: Language;
  readonly log: ReportContent['log'];
  /** Names of accounts, for records that name nobody as having done the work; records themselves hold no names. */
  readonly accounts?: ReadonlyMap<string, string>;
  /** Where the service answers (`https://records.example`), for codes that lead there when scanned. */
  readonly origin?: string;
}

/** A season being told to a reader: what every part of a report needs. */
export interface Telling extends Given {
  readonly season: OpenSeason;
  readonly words: Words;
  readonly zone: string;
  /** UCUM codes in which this operation thinks: those of its first fill and first field. */
  readonly volumeUnit: string;
  readonly areaUnit: string;
}

export function tell(season: OpenSeason, given: Given): Telling {
  const volumeUnit = season.ofType('batch.filled')[0]?.data.volume.unit;
  const areaUnit = season.fields().find((field) => field.registered.area !== undefined)?.registered.area?.unit;
  return {
    ...given,
    season,
    words: wordsOf(given.language),
    zone: season.timeZone,
    volumeUnit: volumeUnit === undefined || volumeUnit === '{measure}' ? '[gal_us]' : volumeUnit,
    areaUnit: areaUnit ?? '[acr_us]',
  };
}

/** `{bag}` is what UCUM writes for a unit of one's own: a reader wants the word alone. */
const inBraces = /^\{([^{}]+)\}$/;

/** `gal` for `[gal_us]`, `bag` for `{bag}`; a code that has no everyday name stays as it is. */
export const unitName = (code: string): string =>
  unitNames[code] ??
  code
    .split('/')
    .map((part) => unitNames[part] ?? part.replace(inBraces, '$1'))
    .join('/');

/** The report around its blocks: whose it is, when it was prepared, and the notice that every report begins with. */
export function report(
  telling: Telling,
  head: Pick<ReportContent, 'kind' | 'title' | 'subtitle' | 'period'>,
  blocks: readonly Block[],
): ReportContent {
  const { season, words, zone, now, language, log } = telling;
  const described = season.operation === null ? null : asOf(season.operation, now);
  const certificate = described?.certificate;
  return {
    ...head,
    language,
    operation: {
      name: described?.name ?? words.unknownThing('—'),
      ...(described?.address === undefined ? {} : { address: described.address }),
      ...(certificate === undefined
        ? {}
        : { certificate: words.certificate(certificate.certifier, certificate.number, certificate.scope) }),
      timeZone: zone,
    },
    preparedAt: words.preparedAt(localText(now, zone)),
    log,
    notice: words.notice,
    blocks,
  };
}

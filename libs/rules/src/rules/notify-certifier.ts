import type { CurrentRecord, Season } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, due, met, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { hours } from '../engine/parameter.ts';
import { defineRule, type Given } from '../engine/rule.ts';
import { atMost, elapsed, hourMs } from '../judging/span.ts';
import { hoursWords, spanFigure, timeWords } from '../judging/when.ts';

const parameters = z.object({ withinHours: hours(24, 'Hours within which "at once" is kept.') });
type P = z.output<typeof parameters>;

/** The first word to the certifier about a thing, or about the very record, not before it happened. */
function notice(season: Season, event: CurrentRecord, ids: readonly string[]) {
  const all = new Map(
    [event.id, ...ids].flatMap((id) =>
      season.naming('certifier.notified', id).map((record) => [record.id, record] as const),
    ),
  );
  return [...all.values()].filter((record) => record.at.to >= event.at.from).sort((a, b) => a.at.at - b.at.at)[0];
}

function judgeEvent(
  event: CurrentRecord,
  what: string,
  ids: readonly string[],
  { limits, season, now }: Given<P>,
): Judgement {
  const book = limits(event.at.at);
  const { withinHours: limit } = book.parameters;
  const by = event.at.at + limit * hourMs;
  const told = notice(season, event, ids);
  const said = `${what} at ${timeWords(season, event.at.at)}`;
  if (told === undefined) {
    return now <= by
      ? due(book, by, 'tell the certifier', `${said}: tell the certifier at once, and record it.`, {
          recordIds: [event.id],
        })
      : broken(book, `${said}, and no word to the certifier is recorded.`, { recordIds: [event.id], since: by });
  }
  const took = elapsed(event.at, told.at, hourMs);
  const evidence = { figures: [spanFigure('hoursUntilTold', took, 'h', { limit })], recordIds: [event.id, told.id] };
  switch (atMost(took, limit)) {
    case 'over':
      return broken(
        book,
        `${said}; the certifier was told ${hoursWords(took.value)} later, which is not at once.`,
        evidence,
      );
    case 'maybeOver':
      return unknown(
        book,
        `${said}; as the times are not exact, whether the certifier was told within ${hoursWords(limit)} is not sure.`,
        evidence,
      );
    default:
      return met(book, `${said}; the certifier was told ${hoursWords(took.value)} later.`, evidence);
  }
}

/** A prohibited substance on the ground or in the equipment, and the word to the certifier. */
export const notifyCertifier = defineRule({
  id: 'notify-certifier',
  revision: 1,
  title: 'Certifier told at once',
  reason:
    'When a prohibited substance was applied or drifted onto the ground, the certifier is told at once, whoever did it. What the certifier hears from the farm weighs less than what an inspector finds.',
  basis: 'regulation',
  citation: '7 CFR 205.400(f), read 2026-11-25; the hours are common practice, no source',
  severity: 'major',
  packs: ['us-organic'],
  parameters,
  chosenAt: 'the event',
  looksAt: {
    kinds: ['field', 'equipment'],
    records: ['field.registered', 'field.exposed', 'equipment.registered', 'equipment.used', 'certifier.notified'],
  },
  judge: {
    field(field, given) {
      return worst(
        field.exposures.map((event) =>
          judgeEvent(
            event,
            `${event.data.substance} ${event.data.how === 'drift' ? 'drifted onto' : 'was applied to'} ${field.registered.code}`,
            [field.id],
            given,
          ),
        ),
        (n) => `${n} more ${n === 1 ? 'event' : 'events'} alike.`,
      );
    },
    equipment(equipment, given) {
      return worst(
        equipment.uses
          .filter(({ data }) => data.prohibited === 'yes')
          .map((event) =>
            judgeEvent(
              event,
              `${event.data.what}, a prohibited substance, was used in ${equipment.registered.code}`,
              [equipment.id],
              given,
            ),
          ),
        (n) => `${n} more ${n === 1 ? 'event' : 'events'} alike.`,
      );
    },
  },
});

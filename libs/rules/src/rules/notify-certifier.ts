import type { CurrentRecord, Season } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, due, met, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { hours, leftOpen } from '../engine/parameter.ts';
import { defineRule, type Given } from '../engine/rule.ts';
import { atMost, elapsed, hourMs } from '../judging/span.ts';
import { spanFigure, timeOf } from '../judging/when.ts';
import { say, type Said } from '../words/index.ts';

const parameters = () =>
  z.object({ withinHours: leftOpen('atMost', hours(24, 'Hours within which "at once" is kept.')) });
type P = z.output<ReturnType<typeof parameters>>;

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
  what: Said,
  ids: readonly string[],
  { limits, season, now }: Given<P>,
): Judgement {
  const book = limits(event.at.at);
  const { withinHours: limit } = book.parameters;
  const by = event.at.at + limit * hourMs;
  const told = notice(season, event, ids);
  const said = say('notify-certifier.said', { what, at: timeOf(season, event.at.at) });
  if (told === undefined) {
    return now <= by
      ? due(book, by, say('due.tellCertifier'), say('notify-certifier.due', { said }), {
          recordIds: [event.id],
        })
      : broken(book, say('notify-certifier.never', { said }), { recordIds: [event.id], since: by });
  }
  const took = elapsed(event.at, told.at, hourMs);
  const evidence = { figures: [spanFigure('hoursUntilTold', took, 'h', { limit })], recordIds: [event.id, told.id] };
  switch (atMost(took, limit)) {
    case 'over':
      return broken(book, say('notify-certifier.late', { said, took: took.value }), {
        ...evidence,
        own: say('notify-certifier.own', { said, took: took.value, limit }),
      });
    case 'maybeOver':
      return unknown(book, say('notify-certifier.unsure', { said, limit }), evidence);
    default:
      return met(book, say('notify-certifier.told', { said, took: took.value }), evidence);
  }
}

const exposed = ({ substance, how }: CurrentRecord<'field.exposed'>['data'], code: string): Said =>
  how === 'drift' ? say('exposed.drift', { substance, code }) : say('exposed.applied', { substance, code });

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
          judgeEvent(event, exposed(event.data, field.registered.code), [field.id], given),
        ),
        (n) => say('notify-certifier.more', { n }),
      );
    },
    equipment(equipment, given) {
      return worst(
        equipment.uses
          .filter(({ data }) => data.prohibited === 'yes')
          .map((event) =>
            judgeEvent(
              event,
              say('notify-certifier.usedIn', { what: event.data.what, code: equipment.registered.code }),
              [equipment.id],
              given,
            ),
          ),
        (n) => say('notify-certifier.more', { n }),
      );
    },
  },
});

import { instantOf, type CurrentRecord } from '@furrowmark/domain';
import { z } from 'zod';
import { caution, met, notApplicable, worst, type Judgement } from '../engine/judgement.ts';
import { defineRule, type Given } from '../engine/rule.ts';
import { timeOf } from '../judging/when.ts';
import { say, type Said } from '../words/index.ts';

type Adoption = CurrentRecord<'ruleBook.adopted'>;

/** When an adoption was written down, as far as the log can tell. */
const writtenAt = (adoption: Adoption): number => instantOf(adoption.enteredAt ?? adoption.recordedAt);

function judgeAdoption(adoption: Adoption, given: Given<Record<never, never>>): Judgement[] {
  const { season, book, limits, adoptions } = given;
  const at = limits(adoption.at.at);
  const found: Judgement[] = [];
  const faults = adoptions.faultsOf(adoption.data.entries);
  if (faults.length > 0) {
    found.push(
      caution(at, say('rule-book-adopted.noEffect', { at: timeOf(season, adoption.at.at), faults }), {
        recordIds: [adoption.id],
        figures: [{ name: 'entriesWithoutEffect', value: faults.length, limit: 0 }],
      }),
    );
  }
  const unheard = adoption.data.entries.filter(
    ({ certifierReference: named }) => named !== undefined && !book.knowsRuling(named),
  );
  if (unheard.length > 0) {
    const names = [...new Set(unheard.map(({ certifierReference }) => certifierReference ?? ''))];
    found.push(
      caution(
        at,
        say('rule-book-adopted.unheard', {
          at: timeOf(season, adoption.at.at),
          names: cut(names),
          more: andOthers(names),
        }),
        {
          recordIds: [adoption.id],
          figures: [{ name: 'rulingsNotOnRecord', value: names.length, limit: 0 }],
        },
      ),
    );
  }
  const looser = adoptions.looserThanRegulation(season, adoption.data.entries);
  if (looser.length > 0) {
    found.push(
      caution(
        at,
        say('rule-book-adopted.looser', {
          at: timeOf(season, adoption.at.at),
          looser: cut(looser),
          more: andOthers(looser),
        }),
        {
          recordIds: [adoption.id],
          figures: [{ name: 'looserThanRegulation', value: looser.length, limit: 0 }],
        },
      ),
    );
  }
  const from = instantOf(adoption.data.effectiveFrom);
  const written = writtenAt(adoption);
  if (from < written) {
    const { changed } = adoptions.changesOf(given, book.without(adoption.id), adoption.data.entries, from, written);
    const words = changed.map(({ about, ruleId, before, after }) =>
      say('rule-book-adopted.change', {
        code: about.code,
        ruleId,
        before: say(`verdict.${before}`),
        after: say(`verdict.${after}`),
      }),
    );
    if (changed.length > 0) {
      found.push(
        caution(
          at,
          say('rule-book-adopted.changed', {
            written: timeOf(season, written),
            from: timeOf(season, from),
            n: changed.length,
            changes: cut(words),
            more: andOthers(words),
          }),
          {
            recordIds: [adoption.id],
            figures: [{ name: 'changedOutcomes', value: changed.length, limit: 0 }],
            since: written,
          },
        ),
      );
    }
  }
  return found;
}

const most = 10;
/** As many as a reader takes in. */
const cut = <T>(all: readonly T[]): readonly T[] => all.slice(0, most);
const andOthers = (all: readonly unknown[]): Said | null => (all.length > most ? say('list.andOthers') : null);

/** Adoptions that name what is not there, ask for less than a regulation, or reach back and change earlier outcomes. */
export const ruleBookAdopted = defineRule({
  id: 'rule-book-adopted',
  revision: 2,
  title: 'Rule book adopted for what lies ahead',
  reason:
    'A limit changed afterwards can make yesterday look better than it was, so what a back-dated rule book changed is listed. An entry that names no rule has no effect, and one that asks for less than a regulation does not lift it.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'notice',
  packs: ['practice'],
  parameters: () => z.object({}),
  brokenWord: { en: 'to be mended', es: 'por corregir' },
  chosenAt: 'the adoption',
  looksAt: {
    kinds: ['operation', 'batch'],
    records: ['ruleBook.adopted', 'certifier.wrote', 'operation.described', 'operation.revised'],
  },
  judge: {
    operation(_operation, given) {
      const adoptions = given.season.adoptions();
      const first = adoptions[0];
      if (first === undefined) return notApplicable(given.limits(given.now), say('rule-book-adopted.none'));
      const found = adoptions.flatMap((adoption) => judgeAdoption(adoption, given));
      return (
        worst(found, (n) => say('rule-book-adopted.more', { n })) ??
        met(given.limits(first.at.at), say('rule-book-adopted.all'), {
          recordIds: adoptions.map(({ id }) => id),
        })
      );
    },
  },
});

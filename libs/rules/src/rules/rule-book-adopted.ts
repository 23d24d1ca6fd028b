import { instantOf, type CurrentRecord } from '@furrowmark/domain';
import { z } from 'zod';
import { caution, met, notApplicable, worst, type Judgement } from '../engine/judgement.ts';
import { defineRule, type Given } from '../engine/rule.ts';
import { timeWords } from '../judging/when.ts';

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
      caution(
        at,
        `Of the rule book adopted at ${timeWords(season, adoption.at.at)}, this has no effect: ${faults.join('; ')}.`,
        { recordIds: [adoption.id], figures: [{ name: 'entriesWithoutEffect', value: faults.length, limit: 0 }] },
      ),
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
        `The rule book adopted at ${timeWords(season, adoption.at.at)} rests on a ruling of the certifier that is not on record: ${listed(names)}. Record the letter; until then the entry counts as your own.`,
        { recordIds: [adoption.id], figures: [{ name: 'rulingsNotOnRecord', value: names.length, limit: 0 }] },
      ),
    );
  }
  const looser = adoptions.looserThanRegulation(season, adoption.data.entries);
  if (looser.length > 0) {
    found.push(
      caution(
        at,
        `The rule book adopted at ${timeWords(season, adoption.at.at)} asks for less than a regulation: ${listed(looser)}. The regulation still binds, whatever the rule book says.`,
        { recordIds: [adoption.id], figures: [{ name: 'looserThanRegulation', value: looser.length, limit: 0 }] },
      ),
    );
  }
  const from = instantOf(adoption.data.effectiveFrom);
  const written = writtenAt(adoption);
  if (from < written) {
    const { changed } = adoptions.changesOf(given, book.without(adoption.id), adoption.data.entries, from, written);
    const words = changed.map(
      ({ about, ruleId, before, after }) => `${about.code} ${ruleId} from ${before} to ${after}`,
    );
    if (changed.length > 0) {
      found.push(
        caution(
          at,
          `The rule book written down at ${timeWords(season, written)} holds from ${timeWords(season, from)} and changed ${changed.length} earlier ${changed.length === 1 ? 'outcome' : 'outcomes'}: ${listed(words)}. Signed reviews stay as they were.`,
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
const listed = (all: readonly string[]): string => `${all.slice(0, most).join('; ')}${all.length > most ? ' …' : ''}`;

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
  parameters: z.object({}),
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
      if (first === undefined)
        return notApplicable(given.limits(given.now), 'No rule book was adopted; the built-in limits hold.');
      const found = adoptions.flatMap((adoption) => judgeAdoption(adoption, given));
      return (
        worst(found, (n) => `${n} more ${n === 1 ? 'adoption is' : 'adoptions are'} like it.`) ??
        met(
          given.limits(first.at.at),
          'Every adoption names what is there, none asks for less than a regulation, and none changed an earlier outcome.',
          {
            recordIds: adoptions.map(({ id }) => id),
          },
        )
      );
    },
  },
});

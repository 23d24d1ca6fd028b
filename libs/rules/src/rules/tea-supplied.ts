import { z } from 'zod';
import { broken, caution, met, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { defineRule } from '../engine/rule.ts';
import { timeWords } from '../judging/when.ts';

/** Tea that crossed the gate, and the statement that goes with it. */
export const teaSupplied = defineRule({
  id: 'tea-supplied',
  revision: 1,
  title: 'Tea handed on with a statement',
  reason:
    'Who sprays a tea made elsewhere has to know what is in it and how it was treated. The statement goes with the tea; sold tea may also need registration as a fertilizer where it is sold.',
  basis: 'practice',
  citation: 'common practice, no source; documentation of bought treated amendments: 21 CFR 112.60(b), read 2026-11-25',
  severity: 'minor',
  packs: ['practice'],
  parameters: z.object({}),
  chosenAt: 'the handing over',
  looksAt: { kinds: ['batch'], records: ['tea.supplied', 'tea.received'] },
  judge: {
    batch(batch, { limits, season }) {
      const judgements: Judgement[] = [];
      for (const record of batch.records) {
        if (record.state === 'struck') continue;
        const book = limits(record.at.at);
        const evidence = { recordIds: [record.id] };
        if (record.type === 'tea.supplied') {
          const said = `Tea went to ${record.data.to.name} at ${timeWords(season, record.at.at)}`;
          const sold = record.data.sold === 'yes' ? ' It was sold: ask the state whether it has to be registered.' : '';
          if (record.data.statementGiven === 'no')
            judgements.push(broken(book, `${said} without a statement of what it is.${sold}`, evidence));
          else if (record.data.statementGiven === 'unknown')
            judgements.push(
              unknown(book, `${said}; whether a statement went with it is not recorded.${sold}`, evidence),
            );
          else judgements.push(met(book, `${said} with a statement.${sold}`, evidence));
        }
        if (record.type === 'tea.received' && record.id === batch.receivedTea?.id) {
          const said = `Tea came from ${record.data.from.name} at ${timeWords(season, record.at.at)}`;
          judgements.push(
            record.data.documentId === undefined
              ? caution(book, `${said} without its statement on file.`, evidence)
              : met(book, `${said} with its statement on file.`, evidence),
          );
        }
      }
      return worst(judgements);
    },
  },
});

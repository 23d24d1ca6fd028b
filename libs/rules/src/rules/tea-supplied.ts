import { z } from 'zod';
import { broken, caution, met, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { defineRule } from '../engine/rule.ts';
import { timeOf } from '../judging/when.ts';
import { say } from '../words/index.ts';

/** Tea that crossed the gate, and the statement that goes with it. */
export const teaSupplied = defineRule({
  id: 'tea-supplied',
  revision: 2,
  title: 'Tea handed on with a statement',
  reason:
    'Who sprays a tea made elsewhere has to know what is in it and how it was treated. The statement goes with the tea; sold tea may also need registration as a fertilizer where it is sold.',
  basis: 'practice',
  citation: 'common practice, no source; documentation of bought treated amendments: 21 CFR 112.60(b), read 2026-11-25',
  severity: 'minor',
  packs: ['practice'],
  parameters: () => z.object({}),
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
          const said = say('tea-supplied.went', { name: record.data.to.name, at: timeOf(season, record.at.at) });
          const sold = record.data.sold === 'yes' ? say('tea-supplied.sold') : null;
          if (record.data.statementGiven === 'no')
            judgements.push(broken(book, say('tea-supplied.without', { said, sold }), evidence));
          else if (record.data.statementGiven === 'unknown')
            judgements.push(unknown(book, say('tea-supplied.unknown', { said, sold }), evidence));
          else judgements.push(met(book, say('tea-supplied.with', { said, sold }), evidence));
        }
        if (record.type === 'tea.received' && record.id === batch.receivedTea?.id) {
          const said = say('tea-supplied.came', { name: record.data.from.name, at: timeOf(season, record.at.at) });
          judgements.push(
            record.data.documentId === undefined
              ? caution(book, say('tea-supplied.noFile', { said }), evidence)
              : met(book, say('tea-supplied.onFile', { said }), evidence),
          );
        }
      }
      return worst(judgements);
    },
  },
});

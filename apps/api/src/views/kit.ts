import { mentions, utcText, type Batch, type LogRecord, type Season } from '@furrowmark/domain';
import { judgeWithDue, ruleById, ruleBookView } from '@furrowmark/rules';
import { stockAt } from './stock.ts';
import { dueJson, outcomeJson } from './json.ts';

const open = (batch: Batch): boolean => batch.phase !== 'closed' && batch.phase !== 'reviewed';
/** Registers, papers and stock: everything a phone folds its batches with. Not the life of batches that are closed. */
const perBatch = /^(batch|draw|tea|application|harvest|finding)\./;

/**
 * What a phone needs to work without reception: the records of open batches and of all registers, what is in stock, the
 * rule book, what is due next, and the last outcomes of rules that look beyond the batch.
 */
export function kitOf(season: Season, now: number): object {
  const batches = season.batches().filter(open);
  const wanted = new Set(batches.flatMap((batch) => batch.records.map(({ id }): string => id)));
  const needed = (record: LogRecord): boolean => {
    if (wanted.has(record.id)) return true;
    if (record.type === 'record.amended' || record.type === 'record.struck') {
      return mentions(record).some((id) => wanted.has(id)) || !perBatch.test(record.data.type);
    }
    return !perBatch.test(record.type);
  };
  return {
    asOfSeq: season.size - 1,
    preparedAt: utcText(now),
    timeZone: season.timeZone,
    records: season.written().filter(needed),
    batches: batches.map(({ id, code, kind, phase, vesselId }) => {
      const { outcomes, nextDue } = judgeWithDue(season, id, now);
      return {
        ...{ batchId: id, code, kind, phase, vesselId, nextDue: dueJson(nextDue) },
        outcomes: outcomes.filter(({ ruleId }) => looksBeyond(ruleId)).map((outcome) => outcomeJson(outcome)),
      };
    }),
    lots: stockAt(season, now).map(({ balance, unit, receivedAt, ...lot }) => ({
      ...lot,
      balance: { value: balance.toNumber(), unit },
      receivedAt: utcText(receivedAt),
    })),
    ruleBook: ruleBookView(season, now),
  };
}

/** Whether a rule looks at more than what a phone has of a batch. */
function looksBeyond(ruleId: string): boolean {
  return ruleById(ruleId)?.looksAt.kinds.some((kind) => kind !== 'batch' && kind !== 'draw') ?? true;
}

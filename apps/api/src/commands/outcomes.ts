import { KeptOutcomes, RuleUpgrades, type RuleUpgrade } from '../views/index.ts';
import { Refusal, type Command } from './command.ts';
import { operationIdOf, withOperation } from './operation-here.ts';
import { options } from './options.ts';

export const outcomes: Command = {
  verb: 'outcomes',
  usage: 'keep|compare --operation ID',
  purpose:
    'keep: keeps what every rule says now, for a later version of the program to compare with. compare: lists what this version judges otherwise over the same records at the same time, rule by rule with its revisions; then the exit code is 1. Before that, what earlier upgrades changed, as each wrote it down when it first started.',
  async run(args) {
    const { given, rest } = options(args, ['operation']);
    const [what, ...more] = rest;
    if ((what !== 'keep' && what !== 'compare') || more.length > 0)
      throw new Refusal('`keep` (before an upgrade) or `compare` (after it) is needed.');
    const operationId = operationIdOf(given.operation);
    return withOperation(operationId, async ({ context }) => {
      const service = context.get(KeptOutcomes);
      if (what === 'keep') {
        console.log(`${await service.keep(operationId)} outcomes kept`);
        return 0;
      }
      for (const upgrade of await context.get(RuleUpgrades).list(operationId)) console.log(writtenDown(upgrade));
      const compared = await service.compare(operationId);
      if (compared === null) throw new Refusal('no outcomes were kept: `outcomes keep` before the upgrade keeps them.');
      for (const difference of compared.differences) console.log(lineOf(difference));
      console.log(
        `${compared.outcomes} outcomes of ${compared.size} entries, kept at ${compared.judgedAt.toISOString()}; ${compared.differences.length} differ`,
      );
      return compared.differences.length === 0 ? 0 : 1;
    });
  },
};

type Line = RuleUpgrade['differences'][number];

function lineOf({ ruleId, revision, about, findingId, before, after }: Line): string {
  const revisions = `revision ${revision.before ?? 'none'} → ${revision.after ?? 'none'}`;
  return `${ruleId} (${revisions}) ${about?.kind ?? 'finding'} ${about?.code ?? findingId}: ${before} → ${after}`;
}

function writtenDown({ foundAt, size, outcomes, differences }: RuleUpgrade): string {
  const head = `found at ${foundAt} by a version with other rules: ${differences.length} of ${outcomes} outcomes of ${size} entries differ`;
  return [head, ...differences.map((each) => `  ${lineOf(each)}`)].join('\n');
}

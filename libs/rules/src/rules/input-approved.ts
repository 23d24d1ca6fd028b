import { addDays, endOfDay, type Instant, type Lot, type Material, type Season } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, caution, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { paperRecords, tankRecords } from '../engine/looks-at.ts';
import { defineRule, type Owed } from '../engine/rule.ts';
import { approvalsInForce } from '../judging/approvals.ts';
import { daysOf, materialName, usesBeside, useWords } from '../judging/lot-uses.ts';
import { stockLeft } from '../judging/stock-left.ts';
import { dayOf } from '../judging/water.ts';
import { say } from '../words/index.ts';

type Approval = Material['approvals'][number];

const strength = { certifier: 0, reviewBody: 1, operation: 2 } as const;

type Found = { readonly kind: 'approved' | 'ownOnly' | 'none'; readonly approval?: Approval };

function found(lot: Lot, material: Material, day: string): Found {
  const [approval] = [...approvalsInForce(material, day)].sort((a, b) => strength[a.data.by] - strength[b.data.by]);
  if (approval === undefined) return { kind: 'none' };
  // Compost made on the farm is on no reviewer's list: the operation's own entry in its plan is what there is.
  const own = approval.data.by === 'operation' && lot.origin.kind === 'received';
  return { kind: own ? 'ownOnly' : 'approved', approval };
}

/** The end of the last approval in force, of a lot that is still on the shelf; null where none ends. */
function approvalEnds(season: Season, lot: Lot, material: Material, now: Instant): Owed | null {
  if (!stockLeft(lot)) return null;
  const ends = approvalsInForce(material, dayOf(season, now)).map(({ data }) => data.until);
  const last = ends.reduce<string | undefined>(
    (a, b) => (a === undefined || (b !== undefined && b > a) ? b : a),
    ends[0],
  );
  if (last === undefined || ends.includes(undefined)) return null;
  // Renewed already: another begins before this one ends.
  if (approvalsInForce(material, addDays(last, 1)).length > 0) return null;
  return { at: endOfDay(last, season.timeZone), what: say('due.renewApproval') };
}

/** Each lot on each day it went into tea. */
export const inputApproved = defineRule({
  id: 'input-approved',
  revision: 2,
  title: 'Input approved on the day of use',
  reason:
    'What goes on organic ground has to be allowed when it is used, and an approval can end or be withdrawn while the drum still stands in the shed. So each lot is looked at on the day it went in, in the tank and in the sprayer.',
  basis: 'regulation',
  citation:
    '7 CFR 205.105 and the National List (205.601), as told in 85 FR 70431, read 2026-11-25; the list of substances in the plan: 205.201(a)(2), 2015 edition, read 2026-11-26',
  severity: 'major',
  packs: ['us-organic'],
  parameters: () => z.object({}),
  owes: {
    lot(lot, { season, now }) {
      const material = season.material(lot.materialId);
      return material === undefined ? null : approvalEnds(season, lot, material, now);
    },
  },
  perBatch: ['lot'],
  chosenAt: 'the addition',
  looksAt: {
    kinds: ['lot', 'material', 'batch', 'application'],
    records: [...tankRecords, ...paperRecords],
  },
  judge: {
    lot(lot, { limits, season, now, beside }) {
      const material = season.material(lot.materialId);
      const judgements = usesBeside(season, lot, beside).map((use): Judgement => {
        const book = limits(use.at.at);
        const used = useWords(season, use);
        if (material === undefined) {
          return unknown(book, say('input-approved.lotUnknown', { used, code: lot.code }), {
            recordIds: [use.recordId],
          });
        }
        const name = materialName(season, lot);
        const perDay = daysOf(season, use.at).map((day) => found(lot, material, day));
        const [first = { kind: 'none' }, last = first]: readonly Found[] = perDay;
        const recordIds = [use.recordId, ...(first.approval === undefined ? [] : [first.approval.id])];
        if (first.kind !== last.kind) {
          return unknown(book, say('input-approved.dayUnsure', { used, name }), {
            recordIds,
          });
        }
        switch (first.kind) {
          case 'none': {
            if (lot.origin.kind === 'pile') {
              return notApplicable(book, say('input-approved.ownCompost', { name }));
            }
            const ended = material.withdrawals.at(-1);
            return broken(
              book,
              say('input-approved.none', {
                used,
                name,
                ended: ended === undefined ? null : say('input-approved.withdrawn'),
              }),
              {
                recordIds: [
                  ...recordIds,
                  ...material.approvals.map(({ id }) => id),
                  ...(ended === undefined ? [] : [ended.id]),
                ],
              },
            );
          }
          case 'ownOnly':
            return caution(book, say('input-approved.ownOnly', { used, name }), {
              recordIds,
            });
          case 'approved': {
            const restriction = first.approval?.data.restriction;
            const limit = restriction === undefined ? null : say('input-approved.restriction', { restriction });
            return met(
              book,
              say('input-approved.approved', {
                used,
                name,
                reference: first.approval?.data.reference ?? '',
                restriction: limit,
              }),
              {
                recordIds,
              },
            );
          }
        }
      });
      return (
        worst(judgements, (n) => say('common.moreUses', { n })) ?? notApplicable(limits(now), say('common.unusedYet'))
      );
    },
  },
});

import type { Draft } from '@furrowmark/domain';
import type { Role } from '../access/index.ts';

/** What a role may do with a record, as far as the record itself tells. */
export interface Permission {
  /** Words for why not; null where it may. */
  readonly refusal: string | null;
  /** The record that must be the sender's own, if it is known; null where it does not matter. */
  readonly ownOnly: string | null;
}

const signs: ReadonlySet<Role> = new Set<Role>(['reviewer', 'manager']);

/**
 * Everybody who may append may record what happened. Reviewers and managers sign batches; the manager sets the limits
 * and erases persons; a recorder corrects what it recorded itself, reviewers and managers anything.
 */
export function permit(draft: Draft, role: Role): Permission {
  const may = (refusal: string | null): Permission => ({ refusal, ownOnly: null });
  switch (draft.type) {
    case 'batch.reviewed':
      return may(signs.has(role) ? null : 'Only reviewers and managers review and sign batches.');
    case 'ruleBook.adopted':
      return may(role === 'manager' ? null : 'Only managers adopt a rule book.');
    case 'person.erased':
      return may(role === 'manager' ? null : 'Only managers erase a person.');
    case 'record.amended':
    case 'record.struck':
      return { refusal: null, ownOnly: role === 'recorder' ? draft.data.recordId : null };
    default:
      return may(null);
  }
}

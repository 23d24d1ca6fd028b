import { listOf, memberOf, textOf } from '../../http/read.ts';

export interface Member {
  readonly accountId: string;
  readonly name: string;
  readonly role: string;
  readonly since: string;
  readonly until: string | null;
  readonly pin: boolean;
}

/** The persons among the members; links and phones are listed by themselves. */
export const membersIn = (body: unknown): readonly Member[] =>
  listOf(body, 'members').flatMap((each) => {
    const [accountId, name, role, since] = ['accountId', 'name', 'role', 'since'].map((of) => textOf(each, of));
    return typeof accountId === 'string' && memberOf(each, 'what') === 'person'
      ? [
          {
            ...{ accountId, name: name ?? '', role: role ?? '', since: since ?? '' },
            ...{ until: textOf(each, 'until'), pin: memberOf(each, 'pin') === true },
          },
        ]
      : [];
  });

export interface Invitation {
  readonly invitationId: string;
  readonly name: string;
  readonly role: string;
  readonly expiresAt: string;
}

export const invitationsIn = (body: unknown): readonly Invitation[] =>
  listOf(body, 'invitations').map((each) => ({
    invitationId: textOf(each, 'invitationId') ?? '',
    name: textOf(each, 'name') ?? '',
    role: textOf(each, 'role') ?? '',
    expiresAt: textOf(each, 'expiresAt') ?? '',
  }));

export interface SharedPhone {
  readonly tokenId: string;
  readonly label: string;
  readonly lastUsedAt: string | null;
  readonly expiresAt: string;
}

export const phonesIn = (body: unknown): readonly SharedPhone[] =>
  listOf(body, 'phones').map((each) => ({
    tokenId: textOf(each, 'tokenId') ?? '',
    label: textOf(each, 'label') ?? '',
    lastUsedAt: textOf(each, 'lastUsedAt'),
    expiresAt: textOf(each, 'expiresAt') ?? '',
  }));

export interface ReadingLink {
  readonly accessId: string;
  readonly purpose: string | null;
  readonly from: string | null;
  readonly until: string | null;
  readonly createdAt: string;
  readonly expiresAt: string;
  readonly withdrawnAt: string | null;
  readonly lastUsedOn: string | null;
}

export const linksIn = (body: unknown): readonly ReadingLink[] =>
  listOf(body, 'links').map((each) => ({
    accessId: textOf(each, 'accessId') ?? '',
    purpose: textOf(each, 'purpose'),
    from: textOf(each, 'from'),
    until: textOf(each, 'until'),
    createdAt: textOf(each, 'createdAt') ?? '',
    expiresAt: textOf(each, 'expiresAt') ?? '',
    withdrawnAt: textOf(each, 'withdrawnAt'),
    lastUsedOn: textOf(each, 'lastUsedOn'),
  }));
